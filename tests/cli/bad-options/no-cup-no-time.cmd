size --measured '5 ml' --brim '0 ml' --pour-time '0 s' --usable-share '0 %'
