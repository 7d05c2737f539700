size --text 'RYE漢' --font 'EB Garamond' --cutter v-60 --cap-height '38 mm'
