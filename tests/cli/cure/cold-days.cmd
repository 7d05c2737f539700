cure --resin 'laminating 4:1' --coldest '2 C' --warmest '10 C'
