$RUNNEL card --measured "20 ml" --resin "coating 2:1" --format pdf >/dev/full
