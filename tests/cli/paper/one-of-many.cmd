size --text 'x' --single-line rowmans --cap-height '9 mm' --cutter 'v 60 deg' --depth '1 mm' --size '90 x 30 x 18 mm' --format html
