size --outline "circle 30 mm" --cutter v-60 --ratio '2:0 by volume'
