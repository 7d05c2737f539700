size --outline 'rectangle 2 x 1 in' --cutter flat-1/4in --depth '1/2 in' --format json
