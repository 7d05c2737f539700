fail 3
