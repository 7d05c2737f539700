seal --outline 'rectangle 60 x 40 mm' --cutter 'v 60 deg' --depth-limit '8 mm' --face-margin '3 mm' --count 4 --format json
