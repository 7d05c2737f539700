sheet --measured '5 ml'
