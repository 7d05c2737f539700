crad job.yaml
