size --outline 'circle 30 mm' --cutter flat-6mm --depth '22 mm' --size '300 x 200 x 20 mm'
