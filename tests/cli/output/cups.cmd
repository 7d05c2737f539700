card cups.yaml
