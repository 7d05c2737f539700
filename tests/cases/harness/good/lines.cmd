# two calls, the second in a pipe
$RUNNEL say first
"$RUNNEL" say second | tr a-z A-Z
