sheet bad-key.yaml
