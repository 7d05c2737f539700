# done, and the answer is no
size --outline 'circle 30 mm' --cutter v-60 --temperature '5 C' --format json
