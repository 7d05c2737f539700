$RUNNEL size --outline 'circle 30 mm' --cutter v-60 --format json >/dev/full
