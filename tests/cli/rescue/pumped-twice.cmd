rescue --strokes-a 2 --strokes-b 1 --stroke-a '10 ml' --stroke-b '5 ml' --ratio '2:1 by volume' --format json
