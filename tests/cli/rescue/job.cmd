rescue job.yaml --weighed-a '100 g' --weighed-b '43 g' --format json
