# a mark that turns the direction of writing does not reach the terminal
NO_COLOR=1 $RUNNEL size --measured '18 ml' --colour "$(printf '\342\200\256der')"
