# 0.91 mm in passes of at most 0.5 mm: 0.46 + 0.45; 1 mm in thirds: 0.34 + 0.33 + 0.33
$RUNNEL level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --crown '0.91 mm' --zero-on wood --below '0 mm' --pass '0.5 mm' | grep '  passes'
$RUNNEL level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --crown '1 mm' --zero-on wood --below '0 mm' --pass '0.4 mm' | grep '  passes'
$RUNNEL level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --crown '0.9 mm' --zero-on wood --below '0 mm' --pass '0.5 mm' | grep '  passes'
