cure --resin 'laminating 4:1' --rule doubling --temperature '15 C' --format json
