card --measured '7 ml' --resin 'laminating 100:44' --tint '2 %' --temperature '25 C'
