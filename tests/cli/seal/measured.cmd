seal --measured '18 ml' --sealed
