#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The harness of the command must itself be able to fail: with a stand-in for the command, each case
# in tests/cases/harness/good passes and each in tests/cases/harness/bad is reported.
set -u
folder=tests/cases/harness
passed=0 failed=0

RUNNEL_COMMAND="$PWD/$folder/fake.sh"
RUNNEL_WRAPPER="sh"
export RUNNEL_COMMAND RUNNEL_WRAPPER
for case in "$folder"/good/*.cmd "$folder"/bad/*.cmd; do
    wanted="1 passed, 0 failed"
    case $case in */bad/*) wanted="0 passed, 1 failed" ;; esac
    got=$(sh tests/cli/run.sh "$case")
    if [ "$(echo "$got" | tail -n 1)" = "$wanted" ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        printf '%s: wanted %s, got:\n%s\n' "$case" "$wanted" "$got"
    fi
done
echo "$passed passed, $failed failed"
