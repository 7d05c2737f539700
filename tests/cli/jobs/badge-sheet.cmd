cp $CASES/badge.yaml .
$RUNNEL sheet badge.yaml
rm badge.yaml
