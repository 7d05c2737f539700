size --outline 'circle 30 mm' --path 'circle 30 mm' --cutter v-60
