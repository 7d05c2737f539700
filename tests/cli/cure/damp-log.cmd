cat >log.csv <<'END'
time,temperature [C],humidity [%]
2026-11-25 08:00,20,70
2026-11-25 18:00,18,85
2026-11-26 08:00,17,60
END
"$RUNNEL" cure --resin 'laminating 4:1' --log log.csv --format json
