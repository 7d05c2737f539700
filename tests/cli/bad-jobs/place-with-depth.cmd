size place-with-depth.yaml
