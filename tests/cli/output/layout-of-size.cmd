# layout alone: every digit is a 0
$RUNNEL size layout-of-size.yaml | tr 0-9 0 | diff $SOURCE/tests/golden/size.txt -
