size --outline "circle 30 mm" --cutter v-60 --depth '3 mm'
