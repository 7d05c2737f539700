card --measured '20 ml' --wall-area '50 cm2' --soak '100 ml/m2'
