# a full disk behind standard output
$RUNNEL --help >/dev/full
