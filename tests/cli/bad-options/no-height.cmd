size --text RYE --font 'EB Garamond' --cutter v-60 
