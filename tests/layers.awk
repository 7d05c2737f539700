# SPDX-License-Identifier: GPL-3.0-or-later
# awk -f layers.awk layers.table FILE...
# Reports each include and each word that the table does not allow, as "file:line: what"; the exit
# status is then 1. FILEs are named from the root of the sources (src/..., include/runnel/...).

# ---- The table -----------------------------------------------------------------------------------

FNR == 1 { file_number++; in_comment = 0; start_file() }

file_number == 1 {
    sub(/#.*/, "")
    if ($1 == "layer") {
        folder_layer[$3] = $2
        for (i = 4; i <= NF; i++)
            header_layer[$i] = $2
        allowed["inside", $2, $2] = allowed["public", $2, $2] = 1
    } else if ($1 == "inside" || $1 == "public") {
        for (i = 3; i <= NF; i++)
            allowed[$1, $2, $i] = 1
    } else if (NF > 0) {
        read_rule()
    }
    next
}

# A line "kind NAME... : PLACE...".
function read_rule(    i, places, seen) {
    for (i = 2; i <= NF; i++)
        if ($i == ":")
            seen = 1
        else if (seen)
            places = places " " $i
    for (i = 2; i <= NF && $i != ":"; i++)
        home[$1, $i] = places
}

# Whether the file at hand is one of the places.
function is_at(places,    list, count, i, pattern) {
    count = split(places, list, " ")
    for (i = 1; i <= count; i++) {
        if (list[i] == "anyone")
            return 1
        pattern = list[i]
        gsub(/\./, "[.]", pattern)
        gsub(/\*/, "[^/]*", pattern)
        if (FILENAME ~ ("^" pattern (list[i] ~ /\/$/ ? "" : "$")))
            return 1
    }
    return 0
}

# ---- The files -----------------------------------------------------------------------------------

function start_file(    name, folder) {
    folder = FILENAME
    sub(/[^\/]*$/, "", folder)
    name = substr(FILENAME, length(folder) + 1)
    layer = folder == "include/runnel/" ? header_layer[name] : folder_layer[folder]
    if (file_number > 1 && layer == "")
        complain("belongs to no layer of the table")
}

function complain(text) {
    printf "%s:%d: %s\n", FILENAME, FNR, text
    bad = 1
}

# Includes of our own: "runnel/x.h" is public, "layer/x.h" is private.
function check_own(name,    folder, target) {
    folder = name
    if (!sub(/\/[^\/]*$/, "", folder)) {
        complain("\"" name "\" is to be written with its layer")
    } else if (folder == "runnel") {
        sub(/.*\//, "", name)
        target = header_layer[name]
        if (target == "")
            complain("\"runnel/" name "\" is no public header of the table")
        else if (!allowed["public", layer, target])
            complain(layer " may not include \"runnel/" name "\", which is " target "'s")
    } else {
        target = folder_layer["src/" folder "/"]
        if (FILENAME ~ /^include\//)
            complain("a public header may not include the private \"" name "\"")
        else if (target == "")
            complain("\"" name "\" is in no layer of the table")
        else if (!allowed["inside", layer, target])
            complain(layer " may not include \"" name "\", which is " target "'s own")
    }
}

# Includes of others: by name, else by the folder of the name.
function check_system(name,    folder) {
    folder = name
    sub(/[^\/]*$/, "", folder)
    if (("system", name) in home) {
        if (!is_at(home["system", name]))
            complain("<" name "> may be included only by" home["system", name])
    } else if (folder != "" && ("system", folder) in home) {
        if (!is_at(home["system", folder]))
            complain("<" name "> may be included only by" home["system", folder])
    } else {
        complain("<" name "> is not in the table")
    }
}

# The line without comments and without what stands in quotes.
function code_of(line,    code, cut) {
    gsub(/\\\\/, "", line)
    gsub(/\\["']/, "", line)
    gsub(/'"'/, "", line)
    gsub(/"[^"]*"/, "\"\"", line)
    while (line != "") {
        if (in_comment) {
            cut = index(line, "*/")
            if (!cut)
                return code
            line = substr(line, cut + 2)
            in_comment = 0
        } else {
            cut = match(line, /\/\*|\/\//)
            if (!cut)
                return code line
            code = code substr(line, 1, cut - 1) " "
            if (substr(line, cut, 2) == "//")
                return code
            line = substr(line, cut + 2)
            in_comment = 1
        }
    }
    return code
}

# Each identifier that is no member of something.
function check_words(code,    word, before, after) {
    before = ""
    while (match(code, /[A-Za-z_][A-Za-z0-9_]*/)) {
        word = substr(code, RSTART, RLENGTH)
        before = before substr(code, 1, RSTART - 1)
        after = substr(code, RSTART + RLENGTH)
        if (before !~ /(\.|->)[ \t]*$/) {
            if (("word", word) in home && !is_at(home["word", word]))
                complain("'" word "' is for" home["word", word] " only")
            if (("call", word) in home && after ~ /^[ \t]*\(/ && !is_at(home["call", word]))
                complain("'" word "()' is for" home["call", word] " only")
        }
        before = word
        code = after
    }
}

{
    commented = in_comment
    code = code_of($0)
}

!commented && /^[ \t]*#[ \t]*include[ \t]*["<]/ {
    match($0, /["<][^">]*[">]/)
    name = substr($0, RSTART + 1, RLENGTH - 2)
    if (substr($0, RSTART, 1) == "<")
        check_system(name)
    else
        check_own(name)
    next
}

# Names of files and macros in other directives mean nothing here, but what a macro says does.
{ check_words(code) }

END { exit bad }
