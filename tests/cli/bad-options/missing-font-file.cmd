size --text RYE --font ./nowhere.ttf --cutter v-60 --cap-height '38 mm'
