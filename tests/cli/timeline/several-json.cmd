timeline first.yaml second.yaml --format json
