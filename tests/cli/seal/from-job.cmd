seal from-job.yaml --coats 1 --format json
