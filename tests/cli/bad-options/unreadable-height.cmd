# what was given wrongly is not told to be missing as well
size --text RYE --font 'EB Garamond' --cutter v-60 --text-height tall
