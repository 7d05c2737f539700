size missing-cutter.yaml
