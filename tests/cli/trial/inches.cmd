trial --width '1/4 in' --at-depth '1/8 in' --format json
