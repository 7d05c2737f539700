card --measured '500 ml' --cup-loss '0 g' --crown '0 mm' --soak '0 ml/m2'
