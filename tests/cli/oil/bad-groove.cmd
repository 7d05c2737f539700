oil --size '450 x 300 x 38 mm' --juice-groove 'circle 200 mm, round-nose radius 3 mm, 5 mm deep'
