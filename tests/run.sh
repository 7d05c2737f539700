#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs everything that `make test` has built and ends with the line "N passed, N failed".
#
# Environment, set by the Makefile: BUILD (where the executables are), WRAPPER (such as valgrind),
# SANITIZE, JOBS, ONLY (run the parts whose name holds it), and CC, CFLAGS, LDFLAGS, MAKE for the
# part that builds a program against an installed copy.
#
# A part is a Check suite, the replay of a fuzz target's corpus, or a script. Each runs as
# `sh tests/run.sh part NAME`, leaves its log and its two counts in $BUILD/results, and never stops
# the others.
set -u

BUILD=${BUILD:-build}
JOBS=${JOBS:-1}
results=$BUILD/results${WRAPPER:+-wrapped}

# ---- One part: each function prints a log and sets `passed` and `failed` ------------------------

# Counts what Check prints; a suite that crashed, leaked at its end or checked nothing has failed.
run_suite() {
    log=$results/$1.log
    # shellcheck disable=SC2086 # the wrapper is a list of words
    $WRAPPER "$BUILD/tests/$1" >"$log" 2>&1
    status=$?
    # shellcheck disable=SC2046 # two numbers
    set -- $(awk '/^[0-9]+%: Checks: [0-9]+, Failures: [0-9]+, Errors: [0-9]+/ {
        gsub(",", ""); checks += $3; bad += $5 + $7 } END { print checks + 0, bad + 0 }' "$log")
    passed=$(($1 - $2)) failed=$2
    [ "$status" -eq 0 ] || [ "$failed" -gt 0 ] || failed=1
    if [ $((passed + failed)) -eq 0 ]; then
        echo "no check was run" >>"$log"
        failed=1
    fi
    [ "$status" -eq 0 ] || echo "exit status $status" >>"$log"
}

# The whole corpus in one go; file by file only when that fails, to count and to name them.
run_replay() {
    log=$results/$1.log
    program=$BUILD/tests/$1
    corpus=tests/fuzz/corpus_${1#replay_}
    passed=$(find "$corpus" -type f 2>/dev/null | wc -l) failed=0
    if [ "$passed" -eq 0 ]; then
        echo "$corpus holds no file" >"$log"
        failed=1
        return
    fi
    # shellcheck disable=SC2086
    $WRAPPER "$program" "$corpus"/* >"$log" 2>&1 && return
    for file in "$corpus"/*; do
        # shellcheck disable=SC2086
        if ! $WRAPPER "$program" "$file" >>"$log" 2>&1; then
            echo "failed on $file" >>"$log"
            passed=$((passed - 1)) failed=$((failed + 1))
        fi
    done
    [ "$failed" -gt 0 ] || failed=1
}

# A script that ends with the line "N passed, N failed".
run_script() {
    log=$results/$1.log
    shift
    sh "$@" >"$log" 2>&1
    status=$?
    # shellcheck disable=SC2046
    set -- $(awk '/^[0-9]+ passed, [0-9]+ failed$/ { p = $1; f = $3 } END { print p + 0, f + 0 }' \
        "$log")
    passed=$1 failed=$2
    [ "$status" -eq 0 ] || [ "$failed" -gt 0 ] || failed=1
    [ $((passed + failed)) -gt 0 ] || failed=1
}

# What Check says from its count on, or the end of any other log.
tell_failures() {
    if grep -q '^[0-9]*%: Checks:' "$1"; then
        sed -n '/^[0-9]*%: Checks:/,$p' "$1"
    else
        cat "$1"
    fi | tail -n 60
}

run_part() {
    start=$(date +%s)
    case $1 in
    test_*) run_suite "$1" ;;
    replay_*) run_replay "$1" ;;
    cli) run_script cli tests/cli/run.sh ;;
    *) run_script "$1" "tests/check_$1.sh" ;;
    esac
    word=ok
    [ "$failed" -eq 0 ] || word=FAIL
    times >"$results/$1.times"
    computed=$(awk 'NR == 2 { gsub(/[ms]/, " "); print 60 * $1 + $2 + 60 * $3 + $4 }' \
        "$results/$1.times")
    printf '%-5s %-24s %5d passed %3d failed %5d s %7.1f s of a core\n' "$word" "$1" "$passed" \
        "$failed" $(($(date +%s) - start)) "$computed"
    [ "$failed" -eq 0 ] || tell_failures "$results/$1.log" | sed 's/^/      /'
    echo "$passed $failed" >"$results/$1.count"
}

# ---- All parts -----------------------------------------------------------------------------------

# What reads the same bytes whatever the command was compiled with, or looks at the sources, runs once:
# for the plain build.
list_scripts() {
    for script in tests/check_*.sh; do
        name=$(basename "$script" .sh)
        [ -n "$WRAPPER$SANITIZE" ] || echo "${name#check_}"
    done
}

list_parts() {
    list_scripts
    for source in tests/test_*.c tests/fuzz/fuzz_*.c; do
        name=$(basename "$source" .c)
        case $name in
        fuzz_*) echo "replay_${name#fuzz_}" ;;
        *) echo "$name" ;;
        esac
    done
}

# The longest go first, so that none of them is left over at the end.
longest_first() {
    awk '/^(paper|test_paper|test_glyphs|test_cavity_stack|install|test_plan_chance|test_cavity_laws)$/ {
            print; next }
        { rest = rest $0 "\n" } END { printf "%s", rest }'
}

only() {
    grep -F -e "${ONLY:-}" || true
}

set_up() {
    RUNNEL_COMMAND=$(cd "$BUILD" && pwd)/runnel
    CK_DEFAULT_TIMEOUT=${CK_DEFAULT_TIMEOUT:-60}
    [ -z "$SANITIZE" ] || CK_TIMEOUT_MULTIPLIER=10
    ASAN_OPTIONS=${ASAN_OPTIONS:-allocator_may_return_null=1}
    LSAN_OPTIONS=${LSAN_OPTIONS:-suppressions=$PWD/tests/lsan.supp:print_suppressions=0}
    UBSAN_OPTIONS=${UBSAN_OPTIONS:-print_stacktrace=1}
    RUNNEL_WRAPPER=${WRAPPER:-}
    export RUNNEL_COMMAND RUNNEL_WRAPPER CK_DEFAULT_TIMEOUT CK_TIMEOUT_MULTIPLIER ASAN_OPTIONS \
        LSAN_OPTIONS UBSAN_OPTIONS BUILD WRAPPER SANITIZE JOBS
}

WRAPPER=${WRAPPER:-}
SANITIZE=${SANITIZE:-}
CK_TIMEOUT_MULTIPLIER=${CK_TIMEOUT_MULTIPLIER:-1}
if [ "${1:-}" = part ]; then
    # In one piece, as several parts run at a time.
    told=$(run_part "$2")
    printf '%s\n' "$told"
    exit 0
fi

set_up
rm -rf "$results"
mkdir -p "$results"
list_parts | only | longest_first | xargs -r -P "$JOBS" -n 1 sh tests/run.sh part
[ -z "$(echo cli | only)" ] || run_part cli # which shares its work out itself
cat "$results"/*.count 2>/dev/null | awk '{ p += $1; f += $2 }
    END { printf "%d passed, %d failed\n", p, f; exit f > 0 || p == 0 }'
