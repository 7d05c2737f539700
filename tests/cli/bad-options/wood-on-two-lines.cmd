$RUNNEL size --outline "circle 30 mm" --cutter v-60 --wood "$(printf 'hard\nmaple')"
