$RUNNEL stock --measured "50 ml" --stock short.csv --take-out
