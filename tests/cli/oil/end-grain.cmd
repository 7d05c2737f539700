oil --size '450 x 300 x 38 mm' --grain 'end grain' --uptake '50 ml/m2' --end-grain 4 --coats 3 --fall '50 %' --waste '20 %' --count 2 --format json
