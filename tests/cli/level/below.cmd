level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --zero-on wood --below '0.3 mm' --take-off '0.1 mm' --format json
