size --outline "circle 30 mm" --cutter v-60 --resin 'table-top 2:2'
