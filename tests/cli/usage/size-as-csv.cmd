size job.yaml --format csv
