rescue --strokes-a 10 --strokes-b 5
