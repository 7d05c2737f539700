size tab.yaml
