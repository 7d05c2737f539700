rescue --poured-a '60 ml' --poured-b '20 ml' --ratio '2:1 by volume' --wanted '98 g'
