size only-comments.yaml
