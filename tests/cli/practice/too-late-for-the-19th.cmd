timeline --measured '20 ml' --resin 'coating 2:1' --temperature '16 C' --size '300 x 200 x 20 mm' --oil 'mineral oil' --grain-raised 0 --start 2026-12-10 --ready-by 2026-12-19
