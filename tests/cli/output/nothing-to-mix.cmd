card --outline 'rectangle 1 x 1 mm' --cutter 'flat 6 mm' --depth '2 mm'
