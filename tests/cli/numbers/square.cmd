size --outline 'rectangle 40 x 40 mm' --cutter 'v 90 deg' --format json
