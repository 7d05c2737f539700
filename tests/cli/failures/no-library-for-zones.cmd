# a file of that name that is no library, before the one that is installed
LD_LIBRARY_PATH=$PWD/broken; export LD_LIBRARY_PATH
$RUNNEL size --measured "20 ml" --resin "table-top 2:1" >still-works.txt
$RUNNEL timeline "$SOURCE/share/examples/house-sign.yaml" --zone Europe/Berlin
