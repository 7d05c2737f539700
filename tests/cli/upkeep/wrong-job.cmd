upkeep wrong-job.yaml
