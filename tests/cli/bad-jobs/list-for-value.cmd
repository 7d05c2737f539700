size list-for-value.yaml
