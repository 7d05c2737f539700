cure --resin 'laminating 4:1' --log - --poured '2026-11-25 09:00Z'
