size --outline 'circle 40 mm' --cutter 'v 90 deg' --format json
