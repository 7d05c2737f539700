rescue --weighed-a '144 g' --weighed-b '50 g' --ratio '100:44 by weight' --wanted '207 g' --left-b '0 g' --format json
