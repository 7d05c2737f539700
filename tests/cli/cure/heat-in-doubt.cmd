cure job.yaml --temperature '25 C'
