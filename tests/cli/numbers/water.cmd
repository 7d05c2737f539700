size --measured '18 g' --format json
