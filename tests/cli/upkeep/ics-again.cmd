$RUNNEL upkeep --size '450 x 300 x 38 mm' --delivered 2027-12-18 --job sign --format ics -o one.ics
$RUNNEL upkeep --size '450 x 300 x 38 mm' --delivered 2028-01-08 --job sign --revision 1 --use rare --format ics -o two.ics
grep ^UID one.ics >one.txt
grep ^UID two.ics >two.txt
cmp one.txt two.txt
sort -u one.txt | wc -l
