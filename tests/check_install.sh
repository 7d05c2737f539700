#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs a copy into $BUILD/stage, builds and runs the example program against it, runs the
# installed command, and takes the copy away again. Ends with the line "N passed, N failed".
# Environment as for tests/run.sh.
set -u
passed=0 failed=0
root=$(cd "$BUILD" && pwd)
stage=$root/stage

# try WHAT COMMAND...: counts whether the command succeeds.
try() {
    what=$1
    shift
    if "$@" >"$root/install.log" 2>&1; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "failed: $what"
        sed 's/^/  /' "$root/install.log"
    fi
}

make_target() {
    ${MAKE:-make} BUILD="$BUILD" CC="$CC" CFLAGS="$CFLAGS" LDFLAGS="$LDFLAGS" SANITIZE="$SANITIZE" \
        "$@"
}

files_below() {
    (cd "$1" 2>/dev/null && find . -type f | sort)
}

# Against the installed copy alone: no -I or -L of the sources.
build_example() {
    flags=$(PKG_CONFIG_PATH="$stage/lib/pkgconfig" pkg-config --cflags --libs runnel) || return 1
    # shellcheck disable=SC2086 # lists of flags
    $CC -std=c11 -Wall -Wextra -Werror $CFLAGS ${SANITIZE:+-fsanitize=$SANITIZE} $LDFLAGS \
        "$stage/share/runnel/examples/size_board.c" $flags -o "$root/size_board"
}

# Volume 40^2 (3*60 - 40)/12 = 56000/3; walls 2400 sqrt(2); deepest 40/2. The mix of 2:1 by volume
# has 3.27/3 = 1.09 g/ml; need (56/3 + 0.96)*1.1 + 2/1.09 = 23.424 ml = 25.532 g, A 18.115 g and
# B 7.418 g of it; within 2 % and two steps of 0.1 g the pair 18.3 and 7.5 is nearest to 2.32:0.95.
example_output() {
    cat <<'END'
volume  18666.667 mm3
walls   3394.113 mm2
deepest 20.000 mm
part A  18.3 g
part B  7.5 g
END
}

run_example() {
    # shellcheck disable=SC2086 # the wrapper is a list of words
    $WRAPPER "$root/size_board" >"$root/size_board.out" || return 1
    example_output | diff - "$root/size_board.out"
}

# The tables must be found below the prefix, not in the sources.
run_installed() {
    # shellcheck disable=SC2086
    (cd / && env -u RUNNEL_DATA XDG_DATA_HOME=/nonexistent $WRAPPER "$stage/bin/runnel" "$@")
}

lists_tables() {
    run_installed list cutters >"$root/cutters.out" || return 1
    grep -qF "$stage/share/runnel" "$stage/bin/runnel" && ! grep -qF "$PWD/data" "$stage/bin/runnel" &&
        test "$(wc -l <"$root/cutters.out")" -gt 5
}

same_version() {
    run_installed --version | grep -F "$(PKG_CONFIG_PATH="$stage/lib/pkgconfig" pkg-config \
        --modversion runnel)"
}

# What is loaded when it is needed is the file that the linker would have named, and the command
# does without it until then.
loads_late() {
    files=$(grep -o '"lib[^"]*[.]so[.][0-9]*"' src/base/late.h | tr -d '"')
    [ -n "$files" ] || return 1
    ldd "$stage/bin/runnel" >"$root/linked.list" || return 1
    for file in $files; do
        library=$($CC -print-file-name="${file%%.so.*}.so")
        readelf -d "$library" | grep -F "SONAME" | grep -F "[$file]" || return 1
        ! grep -F "$file" "$root/linked.list" || return 1
    done
}

man_page_is_clean() {
    warnings=$(man --warnings -l "$stage/share/man/man1/runnel.1" 2>&1 >/dev/null)
    echo "$warnings"
    [ -z "$warnings" ]
}

# Under DESTDIR the same files arrive, and uninstall leaves none.
destination() {
    make_target install DESTDIR="$root/dest" PREFIX=/usr && files_below "$stage" >"$root/stage.list" &&
        files_below "$root/dest/usr" | diff "$root/stage.list" -
}
uninstalled() {
    make_target uninstall DESTDIR="$root/dest" PREFIX=/usr && [ -z "$(files_below "$root/dest")" ]
}

rm -rf "$stage" "$root/dest"
try "install" make_target install PREFIX="$stage"
try "build the example" build_example
try "run the example" run_example
if [ -x "$BUILD/runnel" ]; then
    try "the installed command lists its tables" lists_tables
    try "libraries that are loaded when they are needed" loads_late
    try "version of command and pkg-config file" same_version
    try "completions are shell" bash -n "$stage/share/bash-completion/completions/runnel"
    ! command -v man >/dev/null || try "man page" man_page_is_clean
fi
try "install below DESTDIR" destination
try "uninstall" uninstalled
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
