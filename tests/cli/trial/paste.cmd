$RUNNEL size --outline 'rectangle 60 x 40 mm' --depth-limit '3 mm' --cutter "$($RUNNEL trial --width '5.9 mm' --at-depth '5 mm' --tip '0.2 mm' | grep '^    v ' | sed 's/^ *//')"
