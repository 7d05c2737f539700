size place-blocks.yaml --format json
