#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The keys that the command's JSON has are those that DEVELOPERS.md lists for it, no more and no less.
set -u
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
source=$PWD
examples=$source/share/examples
jobs=$source/tests/cli/jobs
passed=0 failed=0
cp tests/cli/stock/take-out.csv "$work/stock.csv"
cp tests/cli/stock/take-out.yaml "$work/job.yaml"
cp tests/cli/cure/log-text.in "$work/log.csv"
cd "$work" || exit 1

run() {
    # shellcheck disable=SC2086 # the wrapper is a list of words
    ${RUNNEL_WRAPPER:-} "$RUNNEL_COMMAND" "$@" --format json
}

# One or more runs of a command that between them show all of its keys.
show() {
    case $1 in
    size)
        run size "$examples/house-sign.yaml" --sections '2 mm'
        run size "$jobs/badge.yaml"
        ;;
    seal) run seal "$examples/house-sign.yaml" ;;
    level)
        run level --text 'RYE & SALT' --font 'EB Garamond' --cap-height '20 mm' \
            --cutter 'v 60 deg' --take-off '0.8 mm'
        ;;
    oil) run oil "$jobs/tray.yaml" ;;
    upkeep) run upkeep "$examples/mill-bakery.yaml" --delivered 2026-12-12 ;;
    damp) run damp "$examples/mill-bakery.yaml" --humidity '85 %' ;;
    timeline)
        run timeline --measured '20 ml' --size '200 x 100 x 20 mm' --resin 'coating 2:1' \
            --oil 'mineral oil' --start 2026-12-03 --ready-by 2026-12-12 --days-off 2026-12-08
        ;;
    cure)
        run cure --temperature '18 C' --humidity '70 %'
        run cure --resin 'laminating 4:1' --log log.csv
        ;;
    trial) run trial --width '5.2 mm' --at-depth '4.2 mm' --sold-as '60 deg' ;;
    rescue) run rescue --weighed-a '144 g' --weighed-b '50 g' ;;
    stock) run stock job.yaml --stock stock.csv ;;
    sheet)
        run sheet "$examples/mill-bakery.yaml"
        run sheet "$examples/house-sign.yaml" --use sheltered
        ;;
    esac
}

# Rows of the table whose first cell names the command; the keys are the words in backquotes.
# shellcheck disable=SC2016 # backquotes are meant
keys_told() {
    awk -v row="| $1 |" '/^## JSON/ { on = 1 } /^## Tests/ { on = 0 } on && index($0, row) == 1' \
        "$source/DEVELOPERS.md" | cut -d '|' -f 4- | grep -oE '`[a-z_0-9]+`' | tr -d '`'
}

for command in size seal level oil upkeep damp timeline trial rescue cure stock sheet; do
    show "$command" | grep -oE '"[a-z_0-9]+":' | tr -d '":' | sort -u >got
    keys_told "$command" | sort -u >told
    if [ "$command" = sheet ]; then # which has the keys of others as well
        for other in size seal level oil timeline sheet; do keys_told "$other"; done | sort -u >all
        comm -23 got all >strange
        comm -12 got told | sort -u - strange >mine
        mv mine got
    fi
    if [ -s got ] && cmp -s got told; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        comm -23 got told | sed "s/^/$command shows, and DEVELOPERS.md does not tell: /"
        comm -13 got told | sed "s/^/DEVELOPERS.md tells, and $command does not show: /"
    fi
done
echo "$passed passed, $failed failed"
