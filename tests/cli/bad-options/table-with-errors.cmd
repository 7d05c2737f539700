# a row of a user is checked like any other
size --outline "circle 30 mm" --cutter v-60 --data .
