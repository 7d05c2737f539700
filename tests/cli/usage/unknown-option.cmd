card --zzzzzz job.yaml
