# a file of that name that is no library, before the one that is installed
LD_LIBRARY_PATH=$PWD/broken; export LD_LIBRARY_PATH
$RUNNEL size --outline "rectangle 60 x 40 mm" --cutter "v 60 deg" --depth-limit "3 mm" --resin "table-top 2:1" >still-works.txt
$RUNNEL size --path "polyline 0,0 60,0 60,40 mm" --cutter "round-nose 6 mm" --depth "3 mm" --resin "table-top 2:1"
