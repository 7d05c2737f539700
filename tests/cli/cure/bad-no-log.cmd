cure --resin 'laminating 4:1' --log nowhere.csv
