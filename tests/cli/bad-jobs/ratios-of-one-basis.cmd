size ratios-of-one-basis.yaml
