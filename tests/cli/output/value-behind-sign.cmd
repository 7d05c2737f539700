size --measured='50 ml' --format=json
