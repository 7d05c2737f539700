size unknown-resin.yaml
