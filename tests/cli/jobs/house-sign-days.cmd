cp $CASES/house-sign.yaml .
$RUNNEL timeline house-sign.yaml --use "open air" --start 2026-11-30 --ready-by 2026-12-16
rm house-sign.yaml
