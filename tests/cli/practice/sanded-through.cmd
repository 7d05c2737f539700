level --outline 'rectangle 60 x 10 mm' --cutter 'v 60 deg' --veneer '0.5 mm' --take-off '0.6 mm'
