trial --width '5.9735026918963 mm' --at-depth '5 mm' --tip '0.2 mm' --format json
