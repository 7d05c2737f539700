card --measured '20 ml' --top-up '0 %'
