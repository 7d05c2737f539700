size
