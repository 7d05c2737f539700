size negative-error.yaml
