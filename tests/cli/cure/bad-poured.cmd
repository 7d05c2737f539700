cure --resin 'laminating 4:1' --log - --poured '2026-11-27 08:00'
