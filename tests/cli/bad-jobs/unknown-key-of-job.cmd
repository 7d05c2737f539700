size unknown-key-of-job.yaml
