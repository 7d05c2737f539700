size --outline 'rectangle 60 x 40 mm' --cutter flat-6mm --depth '10 mm' --format json
