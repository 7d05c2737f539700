size unclosed-quote.yaml
