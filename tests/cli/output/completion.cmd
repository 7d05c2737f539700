PATH=$PWD/bin:$PATH
mkdir bin; ln -s "$RUNNEL" bin/runnel
$RUNNEL --bash-completion >completion
bash -c '
. ./completion
try() { COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _runnel; printf "[%s]" "${COMPREPLY[@]}"; echo; }
try runnel s
try runnel size --cut
try runnel size --cutter v-60
try runnel size --resin table
try runnel card --format j
try runnel list --format c
try runnel list w
try runnel help c
try runnel size --align ""
'
rm -r bin completion
