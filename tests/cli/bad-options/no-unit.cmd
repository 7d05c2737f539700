size --outline "circle 30" --cutter v-60
