oil --size '450 x 300 x 38 mm' --uptake '101.865 ml/m2' --end-grain 1 --coats 1 --waste '0 %' --format json
