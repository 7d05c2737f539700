complain one
