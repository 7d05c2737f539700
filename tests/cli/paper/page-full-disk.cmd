$RUNNEL sheet --measured "20 ml" --resin "coating 2:1" --format html >/dev/full
