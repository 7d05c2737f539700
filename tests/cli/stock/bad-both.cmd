stock bad-both.yaml --stock bad-both.csv
