size --path 'line 5,5 5,5 mm' --cutter v-60 --depth '3 mm'
