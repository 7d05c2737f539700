seal --outline 'rectangle 60 x 40 mm' --cutter 'v 60 deg' --size '100 x 80 x 20 mm' --sealed
