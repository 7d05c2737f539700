size not-a-mapping.yaml
