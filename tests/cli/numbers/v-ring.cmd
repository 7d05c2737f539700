size --path 'circle 100 mm' --cutter v-60 --depth '5 mm' --format json
