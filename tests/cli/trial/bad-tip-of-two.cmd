trial --width '2.6 mm' --at-depth '2 mm' --width-2 '7.2 mm' --at-depth-2 '6 mm' --tip '0.2 mm'
