# a value may begin with a dash
$RUNNEL size --text RYE --font 'EB Garamond' --cap-height '38 mm' --cutter v-60 --letter-spacing -0.5mm --format json >close
$RUNNEL size --text RYE --font 'EB Garamond' --cap-height '38 mm' --cutter v-60 --format json >plain
if cmp -s close plain; then exit 9; fi
rm close plain
