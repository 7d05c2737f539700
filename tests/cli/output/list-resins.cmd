list resins
