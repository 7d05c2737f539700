# no line is longer than 78 columns
for words in "size $SOURCE/share/examples/house-sign.yaml" "card $SOURCE/share/examples/mill-bakery.yaml" \
    "seal $SOURCE/share/examples/mill-bakery.yaml" \
    "level $SOURCE/share/examples/mill-bakery.yaml --take-off 1mm" \
    "size --help" "seal --help" "oil $SOURCE/share/examples/mill-bakery.yaml" \
    "level --help" "sheet $SOURCE/share/examples/mill-bakery.yaml" "sheet --help" "oil --help" "stock --help" "trial --help" "rescue --help" "list --help" --help "list resins" "list cutters" "list woods" "list oils" "list fonts"; do
    if $RUNNEL $words | grep -nE '.{79}'; then exit 9; fi
done
