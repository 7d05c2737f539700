size --outline 'polygon 0,0 60,0 30,51.96152422706632 mm' --cutter 'v 90 deg' --format json
