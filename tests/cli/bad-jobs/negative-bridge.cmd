size negative-bridge.yaml
