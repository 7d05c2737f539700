stock --measured '50 ml' --stock by-volume.csv --format json
