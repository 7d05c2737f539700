oil measured.yaml
