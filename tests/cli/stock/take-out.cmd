$RUNNEL stock take-out.yaml --stock take-out.csv --take-out
$RUNNEL stock take-out.yaml --stock take-out.csv --format json >after.json
grep -q '^table-top 2:1,B,400,' take-out.csv && exit 9
grep -q ',450,18.00,2026-05$' take-out.csv
rm after.json
