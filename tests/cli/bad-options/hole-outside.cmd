size --outline 'polygon 0,0 40,0 40,40 0,40 hole 50,50 60,50 60,60 mm' --cutter v-60
