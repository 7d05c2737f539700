seal --coats 2
