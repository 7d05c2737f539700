rescue --weighed-a '144 g' --weighed-b '50 g' --ratio '100:44 by weight' --left-b '0 g'
