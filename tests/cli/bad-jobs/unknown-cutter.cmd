size unknown-cutter.yaml
