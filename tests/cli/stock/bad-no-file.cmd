stock --measured '50 ml' --stock none.csv
