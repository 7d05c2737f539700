size --outline "circle 30 mm" --cutter v-60 --size '0 x 0 x 0 mm'
