# the decimal sign is a point in every locale
LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8 $RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' >german
$RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' | cmp - german
rm german
