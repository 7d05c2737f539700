$RUNNEL fail 4
$RUNNEL say done
