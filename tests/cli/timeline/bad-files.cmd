timeline first.yaml second.yaml third.yaml gone.yaml
