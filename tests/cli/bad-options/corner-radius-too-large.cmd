size --outline 'rounded rectangle 60 x 40 r 21 mm' --cutter v-60
