timeline --measured '20 ml'
