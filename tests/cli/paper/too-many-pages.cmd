$RUNNEL card --measured "900 L" --resin "casting 3:1" --temperature "25 C" -o many.png
