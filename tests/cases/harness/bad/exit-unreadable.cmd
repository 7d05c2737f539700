say words
