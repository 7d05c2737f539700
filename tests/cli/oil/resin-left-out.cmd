oil --size '450 x 300 x 38 mm' --outline 'circle 60 mm' --cutter 'v 60 deg' --depth-limit '4 mm' --format json
