oil --size '450 x 300 x 38 mm' --oil 'Tung Oil' --wax '1 g : 1 g'
