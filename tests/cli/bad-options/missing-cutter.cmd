size --outline 'circle 30 mm'
