seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer 'sanding sealer' --coverage '9 m2/L' --recoat '45 min' --hard '3 h' --format json
