# SPDX-License-Identifier: GPL-3.0-or-later
# awk -f house.awk FILE...
# House rules that no other checker knows: the licence line first, no file above 600 lines, and every
# header guarded. Reports "file:line: what"; the exit status is then 1.

function complain(file, line, text) {
    printf "%s:%d: %s\n", file, line, text
    bad = 1
}

function end_file() {
    if (last > 600)
        complain(file, last, "more than 600 lines; cut it by subject")
    if (file ~ /\.h$/ && !guarded)
        complain(file, 2, "no include guard RUNNEL_..._H")
}

FNR == 1 {
    if (file != "")
        end_file()
    file = FILENAME
    guarded = 0
    if ($0 !~ /SPDX-License-Identifier: GPL-3.0-or-later/)
        complain(file, 1, "the first line is the licence's SPDX line")
}

/^#ifndef RUNNEL_[A-Z0-9_]+_H$/ { guarded = 1 }
{ last = FNR }

END {
    end_file()
    exit bad
}
