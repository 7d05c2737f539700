timeline --measured '20 ml' --resin 'coating 2:1' --temperature '8 C' --start 2026-11-30
