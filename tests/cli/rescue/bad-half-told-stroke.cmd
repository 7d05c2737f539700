rescue --strokes-a ten --stroke-a '5 ml' --strokes-b 5
