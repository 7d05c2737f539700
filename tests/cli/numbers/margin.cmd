size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --margin '3 mm' --crown '0.5 mm' --reserve '0 %' --soak '0 ml/m2' --format json
