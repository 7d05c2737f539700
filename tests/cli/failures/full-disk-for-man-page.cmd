$RUNNEL --man-page >/dev/full
