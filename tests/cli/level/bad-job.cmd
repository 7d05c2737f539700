level bad-job.yaml
