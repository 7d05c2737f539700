cure --resin 'laminating 4:1' --log - --poured '03/04/2026 08:00'
