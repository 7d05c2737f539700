$RUNNEL sheet --measured "50 ml" >/dev/full
