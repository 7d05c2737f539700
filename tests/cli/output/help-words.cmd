$RUNNEL --help >one; $RUNNEL help >two; cmp one two
$RUNNEL -h >two; cmp one two
for command in size card sheet seal level oil stock trial rescue list help; do
    $RUNNEL $command --help >one; $RUNNEL help $command >two; cmp one two
    $RUNNEL $command -h >two; cmp one two
done
rm one two
