size --text l --single-line rowmans --text-height '50 mm' --cutter v-60 --depth '2 mm' --format json
