size contradiction.yaml --format json
