size --measured '3 fl oz'
