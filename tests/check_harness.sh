#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The harness of the command must itself be able to fail: with a stand-in for the command, each case
# in tests/cases/harness/good passes and each in tests/cases/harness/bad is reported. No case at all is
# a failure, and the thinnest sample is the first case of each folder.
set -u
folder=tests/cases/harness
passed=0 failed=0

RUNNEL_COMMAND="$PWD/$folder/fake.sh"
RUNNEL_WRAPPER="sh"
export RUNNEL_COMMAND RUNNEL_WRAPPER
# count WANTED ARGUMENT...: whether the harness ends with this line.
count() {
    wanted=$1
    shift
    got=$(sh tests/cli/run.sh "$@")
    if [ "$(echo "$got" | tail -n 1)" = "$wanted" ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        printf '%s: wanted %s, got:\n%s\n' "$*" "$wanted" "$got"
    fi
}

for case in "$folder"/good/*.cmd; do
    count "1 passed, 0 failed" "$case"
done
for case in "$folder"/bad/*.cmd; do
    case $case in */too-slow.cmd) RUNNEL_TIMEOUT=1 ;; *) RUNNEL_TIMEOUT=60 ;; esac
    export RUNNEL_TIMEOUT
    count "0 passed, 1 failed" "$case"
done
if sh tests/cli/run.sh src >/dev/null; then
    failed=$((failed + 1))
    echo "no case at all passes"
else
    passed=$((passed + 1))
fi
RUNNEL_SAMPLE=1000000000
export RUNNEL_SAMPLE
count "1 passed, 0 failed" "$folder/good"
echo "$passed passed, $failed failed"
