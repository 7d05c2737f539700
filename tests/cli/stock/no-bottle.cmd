stock --measured '50 ml' --colour red --tint '3 %' --stock no-bottle.csv
