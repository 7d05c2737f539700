size --text RYE --font ./font-is-no-font.ttf --cutter v-60 --cap-height '38 mm'
