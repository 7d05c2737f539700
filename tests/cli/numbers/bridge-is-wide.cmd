size bridge-is-wide.yaml --format json
