size two-shapes.yaml
