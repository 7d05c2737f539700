cure --resin 'laminating 5:1 fast' --temperature '25 C' --usable-share '100 %' --mass '200 g' --layer '8 mm' --hottest '40 C' --format json
