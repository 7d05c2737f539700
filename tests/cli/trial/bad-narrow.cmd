trial --width '0.1 mm' --at-depth '5 mm' --tip '0.2 mm'
