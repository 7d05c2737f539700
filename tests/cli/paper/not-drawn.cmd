seal --measured '20 ml' -o sizes.pdf
