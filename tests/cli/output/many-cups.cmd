size --measured '4 L' --brim '5 ml' --scale '0.1 g'
