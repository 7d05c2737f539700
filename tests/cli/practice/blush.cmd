cure --resin 'laminating 5:1 fast' --temperature '12 C' --humidity '85 %' --format json
