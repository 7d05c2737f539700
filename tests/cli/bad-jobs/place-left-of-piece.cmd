size place-left-of-piece.yaml
