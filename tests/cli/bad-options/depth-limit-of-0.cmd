# a limit of 0 is not the same as no limit
size --outline "circle 30 mm" --cutter v-60 --depth-limit '0 mm'
