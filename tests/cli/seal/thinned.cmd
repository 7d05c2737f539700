seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer lacquer --wet-film '8 thou' --solids '35 %' --thinner '10 %' --loss '0 %' --coats 2 --face-margin '0 mm' --format json
