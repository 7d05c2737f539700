size --text RYE --single-line rowmanz --cutter v-60 --cap-height '20 mm' --depth '1 mm'
