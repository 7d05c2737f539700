level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --crown '5 mm' --pass '2 mm' --take-off '0 mm' --format json
