size --text A --font 'EB Garamond' --cutter v-60 --cap-height '-3 mm'
