timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --start 2026-11-30 --use 'open air' --count 3 --carve-time '90 min' --grits '80, 150, 240' --grain-raised 2 --unmasked
