card --measured '20 ml' --written yesterday --format svg
