size --outline "circle 30 mm" --cutter v-60 --depth-limit '4 ml'
