size house-sign.yaml --format json
