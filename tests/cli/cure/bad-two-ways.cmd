cure --resin 'laminating 4:1' --temperature '20 C' --log x.csv
