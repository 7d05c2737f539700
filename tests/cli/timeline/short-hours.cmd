timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --start 2026-12-05 --hours 'Sat 10:00-10:05'
