size --outline 'cirle 30 mm' --cutter v-60
