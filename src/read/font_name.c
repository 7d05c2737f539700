/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/font_name.h"

#include <string.h>

static bool ends_in(const char *name, size_t length, const char *ending) {
    size_t size = strlen(ending);
    if (length < size)
        return false;
    for (size_t i = 0; i < size; i++) {
        char c = name[length - size + i];
        if ((c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c) != ending[i])
            return false;
    }
    return true;
}

size_t runnel_font_path_length(const char *name) {
    const char *mark = strrchr(name, '#');
    if (!mark || !mark[1] || strspn(mark + 1, "0123456789") != strlen(mark + 1))
        return strlen(name);
    return (size_t)(mark - name);
}

bool runnel_font_is_file(const char *name) {
    static const char *const endings[] = {".ttf", ".otf",  ".ttc",   ".otc",   ".pfb",
                                          ".pfa", ".woff", ".woff2", ".dfont", ".jhf"};
    if (strchr(name, '/'))
        return true;
    size_t length = runnel_font_path_length(name);
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        if (ends_in(name, length, endings[i]))
            return true;
    return false;
}
