size unclosed-bracket.yaml
