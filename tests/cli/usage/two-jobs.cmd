size one.yaml two.yaml
