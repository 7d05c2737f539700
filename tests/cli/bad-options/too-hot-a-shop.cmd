size --outline "circle 30 mm" --cutter v-60 --temperature '200 C'
