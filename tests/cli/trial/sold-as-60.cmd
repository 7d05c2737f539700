trial --width '5.5430905145 mm' --at-depth '5 mm' --sold-as '60 deg' --format json
