size --measured '20 ml' --resin 'table-top 2:1' --scale '1 g' --crown '0 mm' --format json
