cure --resin 'laminating 4:1' --poured-at '9 h'
