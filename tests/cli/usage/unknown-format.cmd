size job.yaml --format xml
