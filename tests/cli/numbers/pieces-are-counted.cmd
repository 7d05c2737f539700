size --measured '10 ml' --footprint '10 cm2' --wall-area '20 cm2' --count 3 --crown '0.5 mm' --soak '100 ml/m2' --reserve '10 %' --cup-loss '0 g' --resin 'casting 2:1' --size-to likely --format json
