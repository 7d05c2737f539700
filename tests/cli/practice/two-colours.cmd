timeline two-colours.yaml
