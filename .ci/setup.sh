#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes sure that what the build needs is there.
#
#   MODULES="gsl ..." HEADERS="csv.h ..." sh .ci/setup.sh PACKAGE...
#
# On Debian and its kin the missing ones of the packages are installed with apt-get; nothing is
# done when none is missing. Elsewhere the missing modules (as pkg-config knows them) and headers
# are named, and the exit status is 1 if there is any.
set -eu

missing_packages() {
    for package; do
        status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) || status=none
        [ "$status" = installed ] || printf '%s ' "$package"
    done
}

install_packages() {
    missing=$(missing_packages "$@")
    [ -n "$missing" ] || return 0
    as_root=
    if [ "$(id -u)" -ne 0 ]; then
        as_root=sudo
        if ! command -v sudo >/dev/null; then
            echo "These packages are missing: $missing" >&2
            echo "Installing them needs root, and there is no sudo here." >&2
            return 1
        fi
    fi
    echo "Installing: $missing"
    $as_root apt-get update -q
    # shellcheck disable=SC2086 # a list of package names
    $as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get install -q -y --no-install-recommends $missing
}

header_exists() {
    printf '#include <stdio.h>\n#include <%s>\n' "$1" | ${CC:-cc} -E - >/dev/null 2>&1
}

name_missing() {
    missing=
    for tool in ${CC:-cc} pkg-config; do
        command -v "$tool" >/dev/null 2>&1 || missing="$missing    the program $tool
"
    done
    for module in ${MODULES:-}; do
        pkg-config --exists "$module" 2>/dev/null ||
            missing="$missing    the library that pkg-config calls $module
"
    done
    for header in ${HEADERS:-}; do
        header_exists "$header" || missing="$missing    the library with the header <$header>
"
    done
    [ -n "$missing" ] || return 0
    printf 'Runnel cannot be built yet. Please install, with development files:\n%s' "$missing" >&2
    return 1
}

if command -v dpkg-query >/dev/null 2>&1 && command -v apt-get >/dev/null 2>&1; then
    install_packages "$@"
else
    name_missing
fi
