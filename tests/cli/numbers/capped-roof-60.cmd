size --outline 'rectangle 60 x 40 mm' --cutter v-60 --depth-limit '8 mm' --format json
