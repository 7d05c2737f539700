size --measured '0.4 ml' --footprint '10 cm2' --deepest '0.4 mm' --resin 'table-top 2:1' --temperature '22 C'
