size --measured '26 ml' --footprint '60 cm2' --count 6 --pour-time '6 min' --resin 'laminating 5:1 slow' --temperature '25 C' --format json
