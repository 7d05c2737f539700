# the order of the options does not matter
size --ratio '100:45 by weight' --resin 'casting 3:1' --measured '50 ml' --format json
