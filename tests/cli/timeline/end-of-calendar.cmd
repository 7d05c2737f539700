timeline --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' --start 9999-12-01
