card --measured '20 ml' --resin 'table-top 2:1' --temperature '25 C'
