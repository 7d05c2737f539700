trial --width '2.6 mm' --at-depth '2 mm' --cutter v-60
