read
