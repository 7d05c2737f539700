trial --width '-1 mm' --at-depth '0 mm' --sold-as '190 deg'
