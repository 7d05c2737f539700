size --path 'line 0,0 100,0 mm' --cutter 'round-nose radius 3 mm' --depth '2 mm' --format json
