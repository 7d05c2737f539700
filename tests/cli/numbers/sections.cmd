size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sections '5 mm' --format json
