size --outline 'polygon 0,0 60,0 60,60 0,60 hole 20,20 40,20 40,40 20,40 mm' --cutter flat-2mm --depth '5 mm' --format json
