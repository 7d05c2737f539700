mkdir "$XDG_DATA_HOME"
$RUNNEL write "$XDG_DATA_HOME/x"
