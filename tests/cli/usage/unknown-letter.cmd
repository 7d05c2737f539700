size -x job.yaml
