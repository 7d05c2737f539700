# a list as CSV is a table again, and says the same
mkdir own
for list in resins cutters woods oils; do $RUNNEL list $list --format csv -o own/$list.csv; done
for list in resins cutters woods oils; do $RUNNEL list $list --data own --format csv | cmp - own/$list.csv; done
$RUNNEL size --measured '50 ml' --format json >plain
$RUNNEL size --measured '50 ml' --data own --format json | cmp - plain
rm -r own plain
