cure --resin 'laminating 4:1' --humidity '0 %'
