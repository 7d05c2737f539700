rescue --weighed-a '0 g' --weighed-b '0 g'
