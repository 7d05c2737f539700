size --measured '9 ml' --footprint '10 cm2' --deepest '9 mm' --size '90 x 90 x 20 mm' --temperature '17 C' --resin 'table-top 2:1'
