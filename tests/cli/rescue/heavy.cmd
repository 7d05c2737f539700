rescue --weighed-a '440 g' --weighed-b '50 g' --ratio '100:44 by weight'
