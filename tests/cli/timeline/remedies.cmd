timeline --measured '20 ml' --size '200 x 100 x 20 mm' --resin 'coating 2:1' --temperature '18 C' --oil 'mineral oil' --coats 1 --start 2026-12-03 --ready-by 2026-12-13
