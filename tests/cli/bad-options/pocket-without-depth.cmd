size --outline 'circle 30 mm' --cutter flat-6mm
