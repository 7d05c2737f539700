# the colour of which nothing is needed has no batch, and the sheet says so
$RUNNEL size nothing-of-one-colour.yaml >sizes || test $? = 1
$RUNNEL card nothing-of-one-colour.yaml >card || test $? = 1
for file in sizes card; do
    grep -q '^Batch blue' $file
    grep -q 'Nothing is to be mixed of red: no cavity of it holds any resin.' $file
    if grep -q '^Batch red' $file; then exit 9; fi
done
rm sizes card
