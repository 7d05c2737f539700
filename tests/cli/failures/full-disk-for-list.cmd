$RUNNEL list resins >/dev/full
