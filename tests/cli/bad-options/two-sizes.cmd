size --outline "circle 30 mm" --cutter v-60 --size '300 x 200 mm'
