size cups-by-time.yaml --format json
