size --outline "circle 30 mm" --cutter v-60 --count 2.5
