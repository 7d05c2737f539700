size --path 'circle 100 mm' --cutter 'round-nose radius 3 mm' --depth '3 mm' --format json
