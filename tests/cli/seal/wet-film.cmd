seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer lacquer --wet-film '100 um' --loss '0 %' --coats 1 --face-margin '0 mm' --format json
