cp $CASES/tray.yaml .
$RUNNEL oil tray.yaml --format json
rm tray.yaml
