size --path 'line 0,0 100,0 mm' --cutter 'round-nose radius 3 mm' --depth '3 mm' --format json
