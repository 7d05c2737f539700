cure --resin 'table-top 2:1' --coldest '16 C' --warmest '34 C' --poured-at '9 h'
