size --outline 'rectangle 60 x 40 mm' --cutter mine --data . --format json
