size --measured '200 ml' --accuracy '2 %' --format json
