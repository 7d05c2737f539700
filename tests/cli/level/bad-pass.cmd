level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --pass '0 mm'
