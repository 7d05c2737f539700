# what is wrong stands above all numbers
status=0
$RUNNEL size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --temperature '5 C' | awk '
    NR == 1 { print "title", $0 }
    /WARNINGS\. Read them before a can is opened:/ { print "warnings", NR }
    /^  ! shop: / { print "shop" }
    /Worked out with/ { print "basis"; exit }'

