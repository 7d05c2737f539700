size -- -dashes.yaml
