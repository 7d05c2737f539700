rescue --weighed-a '0 g' --weighed-b '4.4 g' --ratio '100:44 by weight'
