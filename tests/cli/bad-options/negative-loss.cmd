size --outline "circle 30 mm" --cutter v-60 --cup-loss '-3 g'
