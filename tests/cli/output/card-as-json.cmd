# one result behind both
$RUNNEL card --measured '20 ml' --format json >card.json
$RUNNEL size --measured '20 ml' --format json | cmp - card.json
rm card.json
