seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer 'clear resin' --wet-film '0.5 mm' --loss '0 %' --coats 2 --temperature '25 C' --face-margin '0 mm' --count 10 --format json
