size --path 'line 0,0 100,0 mm' --cutter flat-6mm --depth '5 mm' --format json
