size pot-life-without-mass.yaml
