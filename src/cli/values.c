/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/values.h"

#include <stdio.h>

runnel_place value_place(option_id id) {
    static char field[40];
    snprintf(field, sizeof field, "--%s", option_row(id)->name);
    return (runnel_place){.file = "command line", .field = field};
}

static bool keep(const char *text, option_id id, value_range range, runnel_problems *problems,
                 double found, double *value) {
    const bool fits = range == VALUE_ANY || (range == VALUE_ABOVE_0 ? found > 0 : found >= 0);
    runnel_place place = value_place(id);
    if (fits)
        *value = found;
    else
        runnel_problems_add(problems, RUNNEL_E_RANGE, &place,
                            "'%.60s' is out of range: it must be %s", text,
                            range == VALUE_ABOVE_0 ? "above 0" : "0 or above");
    return fits;
}

bool take_quantity(const cli_arguments *arguments, option_id id, value_range range,
                   runnel_problems *problems, double *value) {
    const char *text = arguments->values[id];
    runnel_place place = value_place(id);
    double found = 0;
    if (!text)
        return true;
    if (runnel_quantity_parse(text, option_row(id)->dimension, problems, &place, &found))
        return false;
    return keep(text, id, range, problems, found, value);
}

bool take_number(const cli_arguments *arguments, option_id id, value_range range,
                 runnel_problems *problems, double *value) {
    const char *text = arguments->values[id];
    runnel_place place = value_place(id);
    double found = 0;
    if (!text)
        return true;
    if (runnel_number_parse(text, problems, &place, &found))
        return false;
    return keep(text, id, range, problems, found, value);
}
