level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --zero-on stone
