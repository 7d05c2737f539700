size brim-without-unit.yaml
