size unknown-reference.yaml
