set -e
carve() {
    "$RUNNEL" "$@" --outline 'rectangle 60 x 40 mm' --cutter 'v 60 deg' --depth-limit '4 mm' --size '200 x 100 x 20 mm' --wood 'hard maple' --resin 'coating 2:1'
}
carve size -o size.pdf
carve card -o card.html
carve sheet -o sheet.svg
carve timeline --start 2026-11-30 -o days.png
"$RUNNEL" cure --temperature '20 C' -o cure.html
head -c 5 size.pdf | grep -q '%PDF-'
grep -q '^<!DOCTYPE html>' card.html
grep -q '<svg' sheet.svg
od -An -tx1 -N4 days.png | grep -q '89 50 4e 47'
grep -c 'data:image/svg+xml;base64,' cure.html | grep -qx 2
