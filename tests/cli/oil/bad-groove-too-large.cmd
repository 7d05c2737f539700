oil --size '20 x 20 x 20 mm' --juice-groove 'rectangle 400 x 250 mm, round-nose radius 3 mm, 5 mm deep'
