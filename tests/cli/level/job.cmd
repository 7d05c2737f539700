level job.yaml --pass '0.1 mm' --format json
