size --text RYE --font 'EB Garamond' --cutter v-60 --single-line rowmans --cap-height '20 mm' --depth '1 mm'
