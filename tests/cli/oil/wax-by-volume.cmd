oil --size '450 x 300 x 38 mm' --wax '4:1 by volume' --wax-kind 'paraffin wax' --wax-coats 2 --wax-coat '20 ml/m2' --waste '0 %' --format json
