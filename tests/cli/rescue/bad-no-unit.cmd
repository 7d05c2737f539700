rescue --weighed-a 10 --weighed-b '5 g' --wanted '0 g'
