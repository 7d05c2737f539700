cp $CASES/badge.yaml .
$RUNNEL oil badge.yaml --oil "walnut oil"
rm badge.yaml
