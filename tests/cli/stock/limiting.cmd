$RUNNEL stock --measured '50 ml' --ratio '100:44 by weight' --crown '0 mm' --reserve '0 %' --cup-loss '0 g' --soak '0 ml/m2' --sealed --stock limiting.csv --format json
