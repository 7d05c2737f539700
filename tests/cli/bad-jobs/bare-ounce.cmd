size bare-ounce.yaml
