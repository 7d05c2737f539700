rescue --weighed-a '100 g' --weighed-b '50 g' --ratio '100:44 by weight' --format json
