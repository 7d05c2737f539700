remove removed.yaml
