# layout alone: every digit is a 0
$RUNNEL card layout-of-card.yaml | tr 0-9 0 | diff $SOURCE/tests/golden/card.txt -
