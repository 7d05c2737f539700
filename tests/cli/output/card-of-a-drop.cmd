card --measured '2 ml' --scale '0.01 g'
