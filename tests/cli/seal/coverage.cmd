seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer lacquer --coverage '100 ft2/US gal' --loss '30 %' --coats 1 --face-margin '0 mm' --format json
