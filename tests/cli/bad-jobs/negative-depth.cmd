size negative-depth.yaml
