size --measured '20 ml' --top-up '-5 %'
