level --measured '18 ml'
