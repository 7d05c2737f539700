for job in $SOURCE/share/examples/*.yaml; do
    $RUNNEL size "$job" >sizes
    $RUNNEL card "$job" >card
    $RUNNEL size "$job" --format json >json
done
rm sizes card json
