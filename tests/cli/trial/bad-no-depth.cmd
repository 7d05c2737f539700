trial --width '5.9 mm'
