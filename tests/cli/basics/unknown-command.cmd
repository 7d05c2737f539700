# misspelt on purpose
sise job.yaml
