size --text RYE --font 'EB Garamnd' --cutter v-60 --cap-height '38 mm'
