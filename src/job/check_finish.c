/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/check_finish.h"

#include "base/slice.h"

#include <math.h>
#include <stdio.h>

/* One of the ways in which an amount can be told. */
static void check_amount(const runnel_job_sealer *sealer, runnel_tell_function tell, void *state) {
    bool coverage = sealer->m2_per_l > 0;
    bool dry = sealer->dry_film_mm > 0, wet = sealer->wet_film_mm > 0;
    bool by_cut = runnel_sealer_kind_of(sealer->kind)->by_cut;
    if (dry && wet)
        tell(state, RUNNEL_FIELD_WET_FILM, RUNNEL_E_CONFLICT,
             "'dry film' and 'wet film' are both given; give one of them");
    else if (coverage && (dry || wet))
        tell(state, RUNNEL_FIELD_COVERAGE, RUNNEL_E_CONFLICT,
             dry ? "'coverage' and 'dry film' are both given; give one of them"
                 : "'coverage' and 'wet film' are both given; give one of them");
    else if (!coverage && !dry && !wet && !by_cut)
        tell(state, RUNNEL_FIELD_COVERAGE, RUNNEL_E_MISSING,
             "how much of the sealer goes on is not told; give the 'coverage' on its can, such as "
             "'9 m2/L', or a 'wet film', or a 'dry film' with its 'solids'");
    if (dry && !(sealer->solids > 0) && !by_cut)
        tell(state, RUNNEL_FIELD_SOLIDS, RUNNEL_E_MISSING,
             "a 'dry film' needs the 'solids', the share of the sealer's volume that stays");
}

void runnel_check_sealer(const runnel_job *job, runnel_tell_function tell, void *state) {
    const runnel_job_sealer *sealer = &job->sealer;
    bool by_cut = runnel_sealer_kind_of(sealer->kind)->by_cut;
    check_amount(sealer, tell, state);
    if (sealer->cut_lb_per_gal > 0 && !by_cut)
        tell(state, RUNNEL_FIELD_CUT, RUNNEL_E_CONFLICT, "only shellac has a 'cut'");
    if (sealer->solids > 0 && by_cut)
        tell(state, RUNNEL_FIELD_SOLIDS, RUNNEL_E_CONFLICT,
             "the solids of shellac follow from its 'cut'; leave 'solids' out");
}

/* Tells of a name that there is not, with the nearest one. */
static void tell_name(runnel_tell_function tell, void *state, runnel_field_id id, const char *what,
                      const char *name, const char *nearest, const char *otherwise) {
    char shown[RUNNEL_SHOWN_SIZE], text[600];
    runnel_slice_show(runnel_slice_of(name), shown);
    if (nearest)
        snprintf(text, sizeof text, "no %s is called '%s'; the nearest name is '%s'", what, shown,
                 nearest);
    else
        snprintf(text, sizeof text, "no %s is called '%s'; %s", what, shown, otherwise);
    tell(state, id, RUNNEL_E_UNKNOWN, text);
}

static void check_wax(const runnel_job *job, runnel_tell_function tell, void *state) {
    const runnel_job_wax *wax = &job->wax;
    size_t count;
    const char *names[16];
    const runnel_wax *waxes = runnel_waxes(&count);
    if (wax->recipe.oil_by == RUNNEL_BASIS_NONE &&
        (wax->kind || wax->coats || wax->coat_mm > 0 || wax->waste >= 0))
        tell(state, RUNNEL_FIELD_RECIPE, RUNNEL_E_MISSING,
             "wax needs its 'recipe', such as '4:1 by weight', oil to wax");
    if (!wax->kind || runnel_wax_find(wax->kind))
        return;
    if (count > sizeof names / sizeof *names)
        count = sizeof names / sizeof *names;
    for (size_t i = 0; i < count; i++)
        names[i] = waxes[i].name;
    tell_name(tell, state, RUNNEL_FIELD_WAX_KIND, "wax", wax->kind,
              runnel_nearest(wax->kind, names, count),
              "it must be 'beeswax', 'carnauba wax' or 'paraffin wax'");
}

void runnel_check_oil(const runnel_job *job, const runnel_tables *tables, runnel_tell_function tell,
                      void *state) {
    const char *name = job->oil.name;
    if (name && !runnel_tables_oil(tables, name))
        tell_name(tell, state, RUNNEL_FIELD_OIL_KIND, "oil", name,
                  runnel_tables_nearest(tables, "oils", name),
                  "'runnel list oils' shows the names");
    check_wax(job, tell, state);
}

void runnel_check_days(const runnel_job *job, runnel_tell_function tell, void *state) {
    const runnel_job_days *days = &job->days;
    if (job->raisings >= 0 && job->raisings != floor(job->raisings))
        tell(state, RUNNEL_FIELD_RAISINGS, RUNNEL_E_RANGE,
             "how often the grain is raised must be a whole number");
    if (!days->start.month || !days->ready_by.month ||
        runnel_date_days_between(days->start, days->ready_by) >= 0)
        return;
    char start[RUNNEL_DATE_SIZE], ready[RUNNEL_DATE_SIZE], text[200];
    snprintf(text, sizeof text, "'%s' is before the start '%s'",
             runnel_date_text(days->ready_by, ready, sizeof ready),
             runnel_date_text(days->start, start, sizeof start));
    tell(state, RUNNEL_FIELD_READY_BY, RUNNEL_E_CONFLICT, text);
}
