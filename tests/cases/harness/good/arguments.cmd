say 'two words' here
