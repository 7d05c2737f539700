timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --start 2026-03-28 --hours 'Sat-Sun 8:00-20:00' --zone Europe/Berlin --format json
