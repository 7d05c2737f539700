sheet --measured '5 ml' --oil 'mineral oil'
