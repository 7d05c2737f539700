# 10 MB without a line end
head -c 10000000 /dev/zero | tr '\0' '#' | $RUNNEL size -
