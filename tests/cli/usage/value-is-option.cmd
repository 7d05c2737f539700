# a forgotten value does not swallow the next option
size --outline "circle 30 mm" --cutter --depth "3 mm"
