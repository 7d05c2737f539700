rescue --weighed-a '10 g'
