/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/care.h"

#include "runnel/units.h"

#include <math.h>
#include <stdio.h>

char *runnel_care_every(int days, char *buffer, size_t size) {
    enum { WEEK = 7, WEEKS_OF_A_YEAR = 52, WEEKS_OF_A_QUARTER = 13, MONTHS_OF_A_QUARTER = 3 };
    int weeks = days / WEEK;
    if (days == 1)
        snprintf(buffer, size, "every day");
    else if (days % WEEK || !weeks)
        snprintf(buffer, size, "every %d days", days);
    else if (weeks == 1)
        snprintf(buffer, size, "every week");
    else if (weeks == WEEKS_OF_A_YEAR)
        snprintf(buffer, size, "once a year");
    else if (weeks == WEEKS_OF_A_YEAR / 2)
        snprintf(buffer, size, "twice a year");
    else if (weeks % WEEKS_OF_A_YEAR == 0)
        snprintf(buffer, size, "every %d years", weeks / WEEKS_OF_A_YEAR);
    else if (weeks % WEEKS_OF_A_QUARTER == 0)
        snprintf(buffer, size, "every %d months", weeks / WEEKS_OF_A_QUARTER * MONTHS_OF_A_QUARTER);
    else
        snprintf(buffer, size, "every %d weeks", weeks);
    return buffer;
}

char *runnel_care_amount(double volume_mm3, char *buffer, size_t size) {
    static const double ml_per_l = 1000;
    double ml = volume_mm3 / RUNNEL_MM3_PER_ML;
    char digits[40];
    if (ml < ml_per_l - 0.5)
        snprintf(buffer, size, "%s ml",
                 runnel_number_text(fmax(1, floor(ml + 0.5)), 0, digits, sizeof digits));
    else
        snprintf(buffer, size, "%s L", runnel_number_text(ml / ml_per_l, 1, digits, sizeof digits));
    return buffer;
}

const char *runnel_care_finish(const runnel_upkeeping *upkeeping) {
    return upkeeping->oil ? upkeeping->oil->name : "clear outdoor coating";
}

const char *runnel_care_kind(runnel_upkeep_kind kind) {
    static const char *const texts[] = {"oil", "coat", "look", "sand"};
    return kind <= RUNNEL_UPKEEP_SAND ? texts[kind] : "?";
}

/* How an oil is put on; what is left on the wood is what goes wrong. */
static void how_to_oil(const runnel_upkeeping *upkeeping, const char *amount, char *buffer,
                       size_t size) {
    const runnel_oil *oil = upkeeping->oil;
    char wait[60] = "a while", food[80] = "";
    if (oil->soak_s > 0)
        runnel_time_text(oil->soak_s, wait, sizeof wait);
    if (oil->dries && oil->full_cure_s > 0 && !runnel_use_is_outdoors(upkeeping->use))
        snprintf(food, sizeof food, " No food on it for %d days.",
                 (int)ceil(oil->full_cure_s / 86400));
    snprintf(buffer, size,
             "Wash it, and let it dry for a day. Rub %s of oil thinly over all sides, ends too. "
             "Leave it for %s, then wipe off all that is still wet, from the resin at once.%s%s",
             amount, wait, food, oil->dries ? " Lay the cloth out flat outdoors." : "");
}

char *runnel_care_how(const runnel_upkeeping *upkeeping, const runnel_upkeep_task *task,
                      char *buffer, size_t size) {
    char amount[40], about[60] = "the amount told above";
    if (task->amount_mm3 > 0)
        snprintf(about, sizeof about, "about %s",
                 runnel_care_amount(task->amount_mm3, amount, sizeof amount));
    switch (task->kind) {
    case RUNNEL_UPKEEP_OIL:
        how_to_oil(upkeeping, about, buffer, size);
        break;
    case RUNNEL_UPKEEP_COAT:
        snprintf(buffer, size,
                 "Wash it with mild soap, let it dry, dull the old coat with fine paper (320), "
                 "wipe off the dust, and brush on %s of a clear coating that holds off "
                 "ultraviolet light: on all six sides, and over the resin too.",
                 about);
        break;
    case RUNNEL_UPKEEP_LOOK:
        snprintf(buffer, size,
                 "Wash it with mild soap and look for cracks, dull or peeling spots and open "
                 "edges, below and behind too. Mend them before the next rain.");
        break;
    case RUNNEL_UPKEEP_SAND:
    default:
        snprintf(buffer, size,
                 "When it is scratched, grey or rough: have it sanded and finished anew, or ask "
                 "its maker. It takes %s of %s, and then this plan begins anew.",
                 about, runnel_care_finish(upkeeping));
        break;
    }
    return buffer;
}
