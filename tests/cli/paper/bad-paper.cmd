card --measured '20 ml' --paper a3
