cp $CASES/badge.yaml .
$RUNNEL card badge.yaml
rm badge.yaml
