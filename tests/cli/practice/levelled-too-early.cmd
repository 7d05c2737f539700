timeline --measured '20 ml' --resin 'table-top 2:1' --temperature '20 C' --start 2026-11-30 --hours 'Mon-Sun 0:00-24:00' --format json
