oil --size '450 x 300 x 38 mm' --juice-groove 'rectangle 400 x 250 mm, round-nose radius 3 mm, 0 mm deep'
