size --outline 'rectangle 80 x 50 mm' --cutter 'v 90 deg' --depth-limit '10 mm' --format json
