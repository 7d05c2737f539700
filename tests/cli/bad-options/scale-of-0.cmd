size --outline "circle 30 mm" --cutter v-60 --scale '0 g'
