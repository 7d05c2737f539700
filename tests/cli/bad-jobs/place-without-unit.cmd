size place-without-unit.yaml
