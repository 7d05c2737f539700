size --measured '5 ml' --size-to low --zero-error '11 mm' --flatness '-1 mm' --angle-error '1 mm' --soak-error '300 %'
