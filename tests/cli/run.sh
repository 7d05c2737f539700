#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs the cases of the command and ends with the line "N passed, N failed".
#
#   sh tests/cli/run.sh [FOLDER | CASE.cmd]...        (default: tests/cli)
#
# A case is NAME.cmd with the files beside it that begin with "NAME.":
#
#   NAME.cmd      the arguments of the command, or shell lines that call "$RUNNEL"; lines run by
#                 `sh -e`, so that a failing line ends the case with its status
#   NAME.in       standard input (without it: empty)
#   NAME.exit     the exit status (without it: 0)
#   NAME.out      one text a line that standard output must hold; after a ! it must not
#   NAME.err      the same for standard error (without it: nothing may be written there)
#   NAME.silent   standard output must be empty
#   NAME.near     numbers in the JSON on standard output, see near.c
#   NAME.creates  files that the case makes or changes, one a line (without it: none may be)
#   NAME.d/       what it holds is copied to where the case runs
#   NAME.ANY      any other file is copied there too, under its own name
#
# NAME holds no dot. Each case runs in a fresh folder, in the locale C.UTF-8, without the user's
# settings and tables (XDG_DATA_HOME is the folder ../data beside it). For the lines there are
# $RUNNEL, $CASES (folder of the case), $SOURCE (root of the sources).
#
# Environment: RUNNEL_COMMAND (default build/runnel), RUNNEL_WRAPPER (such as valgrind), BUILD, JOBS,
# RUNNEL_TIMEOUT (seconds a case, default 60; 600 with a wrapper).
set -u

# ---- One case ------------------------------------------------------------------------------------

complain() {
    echo "  $*"
    bad=1
}

# What files there are and what they hold.
snapshot() {
    (cd "$1" && find . -type f -exec cksum {} + | sort -k 3)
}

show() {
    echo "  $1 was:"
    head -n 20 "$2" | cut -c 1-300 | sed 's/^/  | /'
}

# Checks a stream against a list of texts.
check_stream() {
    [ -f "$2" ] || return 0
    before=$bad
    while IFS= read -r text || [ -n "$text" ]; do
        case $text in
        '') ;;
        !*) ! grep -aqF -e "${text#!}" "$3" || complain "$1 holds but must not:" "+ ${text#!}" ;;
        *) grep -aqF -e "$text" "$3" || complain "$1 lacks:" "- $text" ;;
        esac
    done <"$2"
    [ "$bad" = "$before" ] || show "$1" "$3"
}

check_created() {
    diff "$work/before" "$work/after" | awk '/^[<>]/ { print $4 }' | sed 's|^\./||' |
        sort -u >"$work/created"
    if [ -f "$case.creates" ]; then sort -u "$case.creates"; else :; fi >"$work/creates"
    cmp -s "$work/created" "$work/creates" && return
    complain "files made or changed (-wanted, +got):"
    diff "$work/creates" "$work/created" | sed -n 's/^</  -/p; s/^>/  +/p'
}

copy_inputs() {
    [ ! -d "$case.d" ] || cp -R "$case.d/." "$work/here"
    for file in "$case".*; do
        case $file in
        *.cmd | *.exit | *.out | *.err | *.silent | *.near | *.creates | *.d) ;;
        *) cp "$file" "$work/here" ;;
        esac
    done
}

# Writes the lines to be run; bare arguments get the command in front.
write_lines() {
    if grep -v '^ *#' "$case.cmd" | grep -q "\\\$RUNNEL\|\\\${RUNNEL"; then
        cat "$case.cmd"
    else
        # shellcheck disable=SC2016 # expanded when the lines run
        printf '"$RUNNEL" '
        grep -v '^ *#' "$case.cmd"
    fi >"$work/lines"
}

run_lines() {
    input=/dev/null
    [ ! -f "$case.in" ] || input=$case.in
    (cd "$work/here" && env -i PATH="$PATH" HOME="$all/home" XDG_CACHE_HOME="$all/cache" \
        XDG_DATA_HOME="$work/data" LC_ALL=C.UTF-8 RUNNEL="$all/runnel" CASES="$folder" \
        SOURCE="$source_root" ASAN_OPTIONS="${ASAN_OPTIONS:-}" LSAN_OPTIONS="${LSAN_OPTIONS:-}" \
        UBSAN_OPTIONS="${UBSAN_OPTIONS:-}" \
        timeout "$seconds" sh -e "$work/lines" <"$input" >"$work/out" 2>"$work/err")
}

run_case() {
    folder=$(cd "$(dirname "$1")" && pwd)
    case=$folder/$(basename "$1" .cmd)
    work=$all/$(echo "${case#"$source_root"/}" | tr '/' '_')
    bad=0
    mkdir -p "$work/here"
    copy_inputs
    write_lines
    snapshot "$work/here" >"$work/before"
    run_lines
    status=$?
    mkdir -p "$work/data"
    (snapshot "$work/here" && snapshot "$work/data") >"$work/after"
    {
        wanted=0
        [ ! -f "$case.exit" ] || wanted=$(tr -d '[:space:]' <"$case.exit")
        [ "$status" = "$wanted" ] || complain "exit status:" "-$wanted +$status"
        check_stream "standard output" "$case.out" "$work/out"
        check_stream "standard error" "$case.err" "$work/err"
        if [ -f "$case.silent" ] && [ -s "$work/out" ]; then
            complain "standard output should be empty"
            show "standard output" "$work/out"
        fi
        if [ ! -f "$case.err" ] && [ -s "$work/err" ]; then
            complain "standard error should be empty"
            show "standard error" "$work/err"
        fi
        if [ -f "$case.near" ]; then
            "$near" "$work/out" "$case.near" >"$work/numbers" || complain "numbers are off:"
            sed 's/^/  /' "$work/numbers"
        fi
        check_created
    } >"$work/log"
    echo "$bad" >"$work/bad"
    if [ "$bad" = 1 ]; then
        echo "FAILED ${case#"$source_root"/}"
        head -n 5 "$work/lines" | cut -c 1-300 | sed 's/^/  $ /'
        cat "$work/log"
    fi >"$work/report"
    rm -rf "$work/here" "$work/data"
}

# ---- All cases -----------------------------------------------------------------------------------

if [ "${1:-}" = case ]; then
    run_case "$2"
    exit 0
fi

source_root=$(cd "$(dirname "$0")/../.." && pwd)
build=${BUILD:-build}
command=${RUNNEL_COMMAND:-$build/runnel}
case $command in /*) ;; *) command=$PWD/$command ;; esac
near=$(cd "$build" && pwd)/tests/near
seconds=${RUNNEL_TIMEOUT:-$([ -z "${RUNNEL_WRAPPER:-}" ] && echo 60 || echo 600)}
all=$(mktemp -d)
trap 'rm -rf "$all"' EXIT
trap 'exit 1' HUP INT TERM
mkdir "$all/home" "$all/cache"
printf '#!/bin/sh\nexec %s "%s" "$@"\n' "${RUNNEL_WRAPPER:-}" "$command" >"$all/runnel"
chmod +x "$all/runnel"
export source_root near seconds all

[ $# -gt 0 ] || set -- "$(dirname "$0")"
find "$@" -name '*.cmd' | sort >"$all/list"
xargs -r -P "${JOBS:-1}" -n 1 sh "$0" case <"$all/list"
cat "$all"/*/report
cat "$all"/*/bad | awk '{ f += $1 } END { printf "%d passed, %d failed\n", NR - f, f; exit f > 0 }'
