card job.yaml --colour red
