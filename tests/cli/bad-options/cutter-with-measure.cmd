size --measured '18 ml' --cutter v-60 --depth '3 mm'
