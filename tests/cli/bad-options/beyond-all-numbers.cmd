size --outline "circle 30 mm" --cutter v-60 --depth-limit '1e400 mm'
