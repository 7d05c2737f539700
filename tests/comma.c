/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "comma.h"

#include <check.h>
#include <locale.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

static char folder[40];

static bool has_comma(const char *locale) {
    char text[16];
    if (!setlocale(LC_ALL, locale))
        return false;
    snprintf(text, sizeof text, "%.1f", 1.5);
    return text[1] == ',';
}

static bool make_locale(void) {
    char command[200];
    snprintf(folder, sizeof folder, "/tmp/runnel-locale-XXXXXX");
    if (!mkdtemp(folder))
        return false;
    snprintf(command, sizeof command, "localedef -i de_DE -f UTF-8 %s/de_DE.UTF-8 >%s/log 2>&1",
             folder, folder);
    return system(command) == 0 && setenv("LOCPATH", folder, 1) == 0 && has_comma("de_DE.UTF-8");
}

void comma_begin(void) {
    static const char *const names[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "nb_NO.UTF-8", "nl_NL.UTF-8"};
    folder[0] = '\0';
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (has_comma(names[i]))
            return;
    if (!make_locale())
        puts("SKIPPED: no locale with a decimal comma here; tried in the C locale");
}

void comma_end(void) {
    char command[80];
    setlocale(LC_ALL, "C");
    if (!folder[0])
        return;
    unsetenv("LOCPATH");
    snprintf(command, sizeof command, "rm -rf %s", folder);
    ck_assert_int_eq(system(command), 0);
}
