cure --resin 'laminating 4:1' --poured '2026-11-25 08:00'
