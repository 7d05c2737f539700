size cup-late.yaml --format json
