rescue --weighed-a '-10 g' --weighed-b '5 g'
