size --outline 'rectangle 0 x 40 mm' --cutter v-60
