trial --width '10 mm' --at-depth '5 mm' --width-error '0 mm' --depth-error '0 mm'
