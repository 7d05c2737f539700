stock whole.yaml --stock whole.csv
