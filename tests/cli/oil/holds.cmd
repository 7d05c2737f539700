oil --size '450 x 300 x 38 mm' --finger-holds '2 of 100 mm, round-nose radius 3 mm, 8 mm deep, in the left' --format json
