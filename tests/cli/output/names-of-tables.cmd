size --measured '50 ml' --resin 'Table Top 2:1' --wood 'Sugar_Maple' --format json
