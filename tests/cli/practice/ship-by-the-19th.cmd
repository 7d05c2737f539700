timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --ready-by 2026-12-19 --format json
