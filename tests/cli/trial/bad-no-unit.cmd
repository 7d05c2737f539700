trial --width 5.9 --at-depth '5 mm'
