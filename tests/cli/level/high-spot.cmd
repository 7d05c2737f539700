level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --zero-on '0.1 mm' --high-spot '0.25 mm'
