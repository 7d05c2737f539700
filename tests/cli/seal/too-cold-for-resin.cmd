seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --temperature '5 C' --sealed --format json
