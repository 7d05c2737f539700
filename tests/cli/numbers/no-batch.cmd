size --measured '500 ml' --accuracy '2 %' --format json
