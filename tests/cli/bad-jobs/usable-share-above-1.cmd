size usable-share-above-1.yaml
