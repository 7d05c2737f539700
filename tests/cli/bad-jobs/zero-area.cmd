size zero-area.yaml
