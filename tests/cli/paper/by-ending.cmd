$RUNNEL card --measured '20 ml' --resin 'coating 2:1' -o card.json
grep -q '"batches"' card.json
