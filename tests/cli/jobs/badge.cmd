size badge.yaml --format json
