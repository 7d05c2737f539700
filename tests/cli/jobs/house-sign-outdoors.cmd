cp $CASES/house-sign.yaml .
$RUNNEL sheet house-sign.yaml --use "open air" --format json
rm house-sign.yaml
