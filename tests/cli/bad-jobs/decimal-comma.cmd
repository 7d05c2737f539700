size decimal-comma.yaml
