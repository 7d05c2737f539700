trial --width '5.9 mm' --at-depth '5 mm' --width-2 '7 mm'
