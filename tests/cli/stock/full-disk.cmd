$RUNNEL stock --measured "50 ml" --stock full-disk.csv >/dev/full
