size place-of-a-hole.yaml
