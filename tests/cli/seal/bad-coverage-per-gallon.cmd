seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer lacquer --coverage '400 ft2/gal'
