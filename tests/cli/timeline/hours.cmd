timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --start 2026-11-30 --hours 'Mon-Sun 18:00-19:00' --days-off '2026-12-01, 2026-12-03' --format json
