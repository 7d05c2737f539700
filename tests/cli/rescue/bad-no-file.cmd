rescue no-such.yaml --weighed-a '10 g' --weighed-b '5 g'
