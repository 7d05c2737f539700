level --outline 'polygon 0,0 40,0 40,0.8 20,0.8 20,10 0,10 mm' --cutter 'v 60 deg' --take-off '0.70 mm'
