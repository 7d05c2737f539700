cure --resin 'laminating 4:1' --board '10 C'
