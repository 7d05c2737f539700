size --text RYE --font 'EB Garamond:Bolt' --cutter v-60 --cap-height '38 mm'
