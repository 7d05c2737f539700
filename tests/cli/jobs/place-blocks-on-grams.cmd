cp $CASES/place-blocks.yaml .
$RUNNEL size place-blocks.yaml --scale "1 g" --format json
rm place-blocks.yaml
