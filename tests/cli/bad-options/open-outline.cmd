size --outline 'line 0,0 30,0 mm' --cutter v-60
