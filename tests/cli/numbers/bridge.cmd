size bridge.yaml --format json
