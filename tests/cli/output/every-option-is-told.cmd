# help, manual page and completions come from one table
$RUNNEL --man-page >page
$RUNNEL --bash-completion >completion
for option in $( ($RUNNEL size --help; $RUNNEL sheet --help; $RUNNEL seal --help; $RUNNEL level --help; $RUNNEL oil --help; $RUNNEL stock --help; $RUNNEL trial --help; $RUNNEL rescue --help) | grep -oE '^  (-o, |-h, )?--[a-z0-9-]+' | grep -oE '[a-z0-9-]{4,}'); do
    grep -q -e "$(echo "$option" | sed 's/-/\\\\-/g')" page || exit 8
    grep -q -e " $option " -e " $option\$" completion || exit 9
done
rm page completion
