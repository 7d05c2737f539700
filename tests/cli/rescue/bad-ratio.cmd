rescue --weighed-a '10 g' --weighed-b '5 g' --ratio 2:1
