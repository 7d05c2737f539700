#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Checks the sources below a root against tests/layers.table: sh tests/layers.sh [ROOT]
set -eu
here=$(cd "$(dirname "$0")" && pwd)
cd "${1:-$here/..}"
find include src \( -name '*.[ch]' -o -name '*.def' \) | sort |
    xargs awk -f "$here/layers.awk" "$here/layers.table"
