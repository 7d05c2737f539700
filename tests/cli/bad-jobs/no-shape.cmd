size no-shape.yaml
