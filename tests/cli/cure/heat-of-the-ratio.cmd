cure --resin 'laminating 100:13' --temperature '25 C' --format json
