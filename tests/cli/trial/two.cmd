trial --width '2.609401076758503 mm' --at-depth '2 mm' --width-2 '7.228203230275509 mm' --at-depth-2 '6 mm' --format json
