upkeep job.yaml --format json
