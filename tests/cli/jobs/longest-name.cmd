size --text 'Bartholomäus' --font 'Dancing Script' --cap-height '14 mm' --cutter 'v 30 deg' --size '76 x 30 x 18 mm' --wood beech
