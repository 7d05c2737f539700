size not-utf8.yaml
