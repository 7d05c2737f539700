size no-cavity.yaml
