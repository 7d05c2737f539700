cure --resin 'laminating 4:1' --coldest '10 C' --warmest '20 C' --poured-at '25 h'
