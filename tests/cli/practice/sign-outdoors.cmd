timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --size '600 x 180 x 27 mm' --use 'open air' --start 2026-11-30
