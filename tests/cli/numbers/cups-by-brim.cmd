size --measured '300 ml' --brim '250 ml' --crown '0 mm' --soak '0 ml/m2' --reserve '0 %' --cup-loss '0 g' --resin 'casting 2:1' --format json
