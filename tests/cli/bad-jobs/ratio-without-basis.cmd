size ratio-without-basis.yaml
