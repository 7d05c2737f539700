# the name of a job without one is cut
$RUNNEL size --outline "polygon$(i=0; while [ $i -lt 60 ]; do printf ' %d,0' $i; i=$((i + 1)); done) 59,9 0,9 mm" --cutter v-60 --format json
