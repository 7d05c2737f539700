size --path 'circle 30 mm' --cutter v-60 --depth-limit '3 mm'
