card nowhere.yaml
