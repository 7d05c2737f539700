rescue --strokes-a 4 --strokes-b 2 --stroke-a '5 ml' --ratio '2:1 by volume'
