oil job.yaml --coats 2 --format json
