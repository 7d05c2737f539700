timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --size '300 x 200 x 20 mm' --oil 'tung oil' --start 2026-11-30 --hours 'Mon-Sun 8:00-17:00'
