list
