size binary.yaml
