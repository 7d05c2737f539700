size value-for-list.yaml
