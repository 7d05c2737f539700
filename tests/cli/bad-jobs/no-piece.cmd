size no-piece.yaml
