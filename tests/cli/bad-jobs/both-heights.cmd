size both-heights.yaml
