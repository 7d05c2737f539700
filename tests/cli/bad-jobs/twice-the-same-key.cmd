size twice-the-same-key.yaml
