say one
