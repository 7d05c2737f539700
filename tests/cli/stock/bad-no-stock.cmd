stock --measured '50 ml'
