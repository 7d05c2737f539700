size --outline 'rectangle 60 x 40 mm' --cutter 'flat diameter 3 mm' --depth '4 mm' --count 3 --crown '0 mm' --soak '0 ml/m2' --reserve '0 %' --cup-loss '0 g' --resin 'casting 2:1' --format json
