sheet warnings.yaml
