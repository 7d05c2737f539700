size --outline "circle 30 mm" --cutter v-60 --tint '30 %'
