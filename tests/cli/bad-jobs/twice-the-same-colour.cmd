size twice-the-same-colour.yaml
