# no control characters, no blanks at the ends of lines
for words in "size $SOURCE/share/examples/house-sign.yaml" "card $SOURCE/share/examples/mill-bakery.yaml" \
    "seal $SOURCE/share/examples/mill-bakery.yaml" \
    "level $SOURCE/share/examples/mill-bakery.yaml" \
    "oil $SOURCE/share/examples/mill-bakery.yaml" \
    "sheet $SOURCE/share/examples/mill-bakery.yaml" "list resins"; do
    if $RUNNEL $words | grep -n "[[:cntrl:]]"; then exit 9; fi
    if $RUNNEL $words | grep -n " \$"; then exit 9; fi
done
