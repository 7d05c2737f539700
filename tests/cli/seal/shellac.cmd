seal --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --sealer shellac --cut '2 lb' --coverage '9.8 m2/L' --loss '0 %' --coats 1 --face-margin '0 mm' --format json
