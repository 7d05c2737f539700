size missing-font.yaml
