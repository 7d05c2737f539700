oil --size '450 x 300 x 38 mm' --wax '236.5882365 ml : 2 oz weight' --format json
