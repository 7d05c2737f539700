size --outline 'circle 30 mm' --cutter v-61
