oil --size '450 x 300 x 38 mm' --juice-groove 'rectangle 400 x 250 mm, v 60 deg, 5 mm deep'
