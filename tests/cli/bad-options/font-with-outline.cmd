size --outline "circle 30 mm" --cutter v-60 --font 'EB Garamond'
