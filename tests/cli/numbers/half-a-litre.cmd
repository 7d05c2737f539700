size half-a-litre.yaml --format json
