# nothing else is left beside the file
$RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' >standard
$RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' -o file
cmp standard file
$RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --output=file
$RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' -ofile
cmp standard file
rm standard file
ls -a
