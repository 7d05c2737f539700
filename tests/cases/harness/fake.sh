#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Stands in for the command in the tests of the harness: echoes, reads, writes and fails on demand.
case ${1:-} in
say) shift && echo "$@" ;;
complain) shift && echo "$@" >&2 ;;
read) cat ;;
write) echo more >>"$2" ;;
fail) echo "failed as asked" >&2 && exit "$2" ;;
words) shift && printf '<%s>\n' "$@" ;;
remove) rm "$2" ;;
die) kill -9 $$ ;;
sleep) sleep "$2" ;;
json) echo '{"cavities": [{"name": "lid", "volume_ml": 18.666666666666668}], "warnings": []}' ;;
home) echo "home $HOME data ${XDG_DATA_HOME:-none} user ${USER:-none}" ;;
esac
