/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/json_figures.h"

#include <string.h>

void runnel_json_put_figures(json_t *object, const void *record, const runnel_json_figure *figures,
                             size_t count, bool *whole) {
    for (size_t i = 0; i < count; i++) {
        double value;
        memcpy(&value, (const char *)record + figures[i].offset, sizeof value);
        runnel_json_put(object, figures[i].key,
                        runnel_json_number(value * figures[i].times / figures[i].over), whole);
    }
}
