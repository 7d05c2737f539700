$RUNNEL cure --resin 'laminating 4:1' >/dev/full
