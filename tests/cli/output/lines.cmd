# two lines, 90 mm high
$RUNNEL size --text "$(printf 'RYE\nSALT')" --font 'EB Garamond' --text-height '90 mm' --align centre --cutter v-60 --format json
