timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --start 2026-03-28 --grits '120, 80' --grain-raised 11 --carve-time 3
