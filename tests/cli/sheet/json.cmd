sheet json.yaml --format json
