size --outline 'polygon 0,0 40,0 mm' --cutter v-60
