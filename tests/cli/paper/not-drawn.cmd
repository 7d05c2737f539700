size --measured '20 ml' -o sizes.pdf
