head -c 100000 /dev/zero | tr '\0' '[' | $RUNNEL size -
