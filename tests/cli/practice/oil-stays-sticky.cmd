timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --size '300 x 200 x 20 mm' --oil 'hardwax oil' --start 2026-11-30
