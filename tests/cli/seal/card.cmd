seal --outline 'circle 40 mm' --cutter v-60 --job 'club badge' --count 3 --sealed
