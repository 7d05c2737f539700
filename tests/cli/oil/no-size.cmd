oil no-size.yaml
