# one line for each problem, sorted by place
status=0
$RUNNEL size - 2>&1 >/dev/null | cut -d: -f2 >lines || status=$?
sort -n lines | cmp - lines
wc -l <lines
rm lines
