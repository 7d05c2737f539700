sleep 100
