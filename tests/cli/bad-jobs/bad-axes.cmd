size bad-axes.yaml
