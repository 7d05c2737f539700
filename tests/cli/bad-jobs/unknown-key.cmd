size unknown-key.yaml
