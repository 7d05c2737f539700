# installed, at home, by the environment, by option: the later one goes first
XDG_DATA_HOME=$PWD/home $RUNNEL list cutters --format csv | grep '^v-60,'
XDG_DATA_HOME=$PWD/home RUNNEL_DATA=shell $RUNNEL list cutters --format csv | grep '^v-60,'
XDG_DATA_HOME=$PWD/home RUNNEL_DATA=shell $RUNNEL list cutters --data option --format csv | grep '^v-60,'
XDG_DATA_HOME=$PWD/home RUNNEL_DATA=shell $RUNNEL list cutters --data option --format csv | grep '^v-30,'
