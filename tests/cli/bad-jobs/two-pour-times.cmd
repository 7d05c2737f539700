size two-pour-times.yaml
