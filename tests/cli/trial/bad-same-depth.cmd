trial --width '2.6 mm' --at-depth '2 mm' --width-2 '2.7 mm' --at-depth-2 '2 mm'
