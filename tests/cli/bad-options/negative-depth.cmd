size --path 'line 0,0 100,0 mm' --cutter v-60 --depth '-3 mm'
