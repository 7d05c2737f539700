rescue --weighed-a '10 g' --poured-a '9 ml' --weighed-b '5 g'
