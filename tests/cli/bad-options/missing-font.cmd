size --text RYE --cutter v-60 --cap-height '38 mm'
