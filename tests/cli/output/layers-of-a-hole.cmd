size --measured '30 ml' --deepest '10 mm' --temperature '25 C'
