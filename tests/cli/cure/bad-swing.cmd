cure --resin 'laminating 4:1' --coldest '20 C' --warmest '10 C'
