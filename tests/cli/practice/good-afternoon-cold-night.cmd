cure --resin 'laminating 4:1' --coldest '4 C' --warmest '19 C'
