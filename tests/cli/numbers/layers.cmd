size --outline 'rectangle 80 x 50 mm' --cutter 'v 90 deg' --depth-limit '10 mm' --crown '0 mm' --soak '0 ml/m2' --reserve '0 %' --cup-loss '0 g' --temperature '25 C' --size-to likely --format json
