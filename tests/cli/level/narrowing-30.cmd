level --outline 'rectangle 60 x 40 mm' --cutter 'v 30 deg' --take-off '0.5 mm' --format json
