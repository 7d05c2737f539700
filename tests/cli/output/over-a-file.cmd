# a file that was there keeps its rights, a link stays a link
chmod 640 over-a-file.txt
ln -s over-a-file.txt link
$RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' -o link
test -L link
test "$(stat -c %a over-a-file.txt)" = 640
head -n 1 over-a-file.txt
rm link
