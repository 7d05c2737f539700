# what is no plain file is written in its place
mkfifo pipe
$RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' -o pipe &
head -n 1 pipe
wait
rm pipe
