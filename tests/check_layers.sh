#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The check of the layers must be able to fail: of the tree in tests/cases/layers_bad it reports the
# lines that are marked "bad", and no other. ("bad-on-1" stands for a finding about the whole file.)
set -u
tree=tests/cases/layers_bad
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

grep -rn '/\* bad' "$tree/src" "$tree/include" | sed "s|^$tree/||; s|^\([^:]*\):[0-9]*:.*bad-on-1.*|\1:1:|" |
    cut -d : -f 1,2 | sort >"$work/wanted"
sh tests/layers.sh "$tree" >"$work/report" 2>/dev/null && echo "exit status 0" >>"$work/report"
cut -d : -f 1,2 "$work/report" | sort >"$work/got"
passed=$(comm -12 "$work/wanted" "$work/got" | wc -l)
failed=$(comm -3 "$work/wanted" "$work/got" | wc -l)
comm -23 "$work/wanted" "$work/got" | sed 's/$/ is not reported/'
comm -13 "$work/wanted" "$work/got" | sed 's/$/ is reported/'
echo "$passed passed, $failed failed"
