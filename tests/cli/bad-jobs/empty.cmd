size empty.yaml
