$RUNNEL trial --width '5.9 mm' --at-depth '5 mm' >/dev/full
