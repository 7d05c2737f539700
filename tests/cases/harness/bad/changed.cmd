write changed.yaml
