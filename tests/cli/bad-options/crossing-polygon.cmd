size --outline 'polygon 0,0 40,40 40,0 0,40 mm' --cutter v-60
