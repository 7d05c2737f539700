size --outline 'rectangle 300 x 20 mm' --cutter 'v 60 deg' --size '400 x 60 x 20 mm' --resin 'casting 2:1' --temperature '25 C' --format json
