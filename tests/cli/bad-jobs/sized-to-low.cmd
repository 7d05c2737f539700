size sized-to-low.yaml
