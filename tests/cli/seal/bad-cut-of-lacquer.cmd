seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer lacquer --coverage '9 m2/L' --cut '2 lb'
