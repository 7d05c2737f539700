size --outline "circle 30 mm" --cutter v-60 --soak '40 g/m2'
