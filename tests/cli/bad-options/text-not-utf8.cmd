$RUNNEL size --text "$(printf 'RY\305')" --font 'EB Garamond' --cutter v-60 --cap-height '38 mm'
