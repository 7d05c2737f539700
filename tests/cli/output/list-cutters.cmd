list cutters
