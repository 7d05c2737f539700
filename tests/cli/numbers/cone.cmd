size --outline 'circle 12 mm' --cutter 'v 67.38013505195957 deg' --format json
