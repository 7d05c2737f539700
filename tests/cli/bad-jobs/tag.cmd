size tag.yaml
