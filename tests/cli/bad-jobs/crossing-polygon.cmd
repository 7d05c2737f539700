size crossing-polygon.yaml
