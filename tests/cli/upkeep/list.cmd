$RUNNEL list upkeep --format csv -o upkeep.csv
cmp upkeep.csv "$SOURCE/data/upkeep.csv"
$RUNNEL list upkeep
