size bad-indentation.yaml
