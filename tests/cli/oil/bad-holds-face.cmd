oil --size '450 x 300 x 38 mm' --finger-holds '100 mm, round-nose radius 8 mm, 10 mm deep, in the lid'
