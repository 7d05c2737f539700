size --measured '100 ml' --ratio '100:43 by weight' --scale '0.01 g' --format json
