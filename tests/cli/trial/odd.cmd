trial --width '40 mm' --at-depth '4 mm' --tip '1.2 mm'
