size wrong-unit.yaml
