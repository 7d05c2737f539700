size reference-to-itself.yaml
