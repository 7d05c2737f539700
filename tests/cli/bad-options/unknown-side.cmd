size --text RYE --font 'EB Garamond' --cutter v-60 --cap-height '38 mm' --align left
