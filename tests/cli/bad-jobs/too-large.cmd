head -c 68000000 /dev/zero | tr '\0' '#' | $RUNNEL size -
