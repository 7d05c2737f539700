cure --resin 'laminating 4:1' --coldest '8 C' --warmest '24 C' --humidity '85 %'
