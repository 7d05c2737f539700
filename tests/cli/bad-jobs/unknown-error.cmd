size unknown-error.yaml
