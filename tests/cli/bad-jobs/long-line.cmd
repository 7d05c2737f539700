# a line of 10 MB
{ printf 'job: '; head -c 10000000 /dev/zero | tr '\0' x; echo; } | $RUNNEL size -
