size twice-the-same-name.yaml
