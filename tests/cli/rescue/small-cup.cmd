rescue --weighed-a '100 g' --weighed-b '30 g' --ratio '100:44 by weight' --room '120 ml'
