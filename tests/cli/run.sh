#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs the cases of the command with the program that `make tests` builds; see cases.c for what a
# case is, and for the environment: sh tests/cli/run.sh [FOLDER | CASE.cmd]...
set -u
SOURCE=$(cd "$(dirname "$0")/../.." && pwd)
export SOURCE
[ $# -gt 0 ] || set -- "$SOURCE/tests/cli"
exec "${BUILD:-build}/tests/cases" "$@"
