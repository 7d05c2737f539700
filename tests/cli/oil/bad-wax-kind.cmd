oil --size '450 x 300 x 38 mm' --wax '4:1 by weight' --wax-kind bees
