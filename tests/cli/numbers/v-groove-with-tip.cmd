size --path 'line 0,0 100,0 mm' --cutter v-60-tip-0.2mm --depth '5 mm' --format json
