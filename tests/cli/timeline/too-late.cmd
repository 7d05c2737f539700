timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --start 2026-11-30 --ready-by 2026-12-06
