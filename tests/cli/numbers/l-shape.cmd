size --outline 'polygon 0,0 60,0 60,60 30,60 30,30 0,30 mm' --cutter 'v 90 deg' --format json
