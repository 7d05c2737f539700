stock --stock none.csv
