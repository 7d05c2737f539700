card order.yaml
