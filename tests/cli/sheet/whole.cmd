sheet whole.yaml
