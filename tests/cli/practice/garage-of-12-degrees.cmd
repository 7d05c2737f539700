cure --rule doubling --resin 'laminating 5:1 fast' --temperature '12 C' --format json
