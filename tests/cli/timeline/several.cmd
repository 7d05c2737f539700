timeline first.yaml second.yaml
