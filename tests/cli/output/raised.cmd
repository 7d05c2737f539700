size --measured '2 ml' --wood beech
