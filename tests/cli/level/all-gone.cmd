level --outline 'circle 4 mm' --cutter 'v 90 deg' --take-off '2 mm'
