size --measured '50 ml' --footprint '20 cm2' --deepest '50.8 mm' --size '200 x 200 x 60 mm' --resin 'table-top 2:1' --temperature '25 C' --format json
