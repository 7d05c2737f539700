seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer lacquer --dry-film '125 um' --solids '65 %' --loss '0 %' --coats 1 --format json
