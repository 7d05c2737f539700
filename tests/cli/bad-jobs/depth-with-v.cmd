size depth-with-v.yaml
