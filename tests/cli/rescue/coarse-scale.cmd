rescue --weighed-a '5 g' --weighed-b '2 g' --ratio '100:44 by weight' --scale '1 g'
