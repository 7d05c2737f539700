/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/check_finish.h"

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

void runnel_check_finish(const runnel_job *job, runnel_tell_function tell, void *state) {
    const runnel_job_sealer *sealer = &job->sealer;
    bool by_cut = runnel_sealer_kind_of(sealer->kind)->by_cut;
    check_amount(sealer, tell, state);
    if (sealer->cut_lb_per_gal > 0 && !by_cut)
        tell(state, RUNNEL_FIELD_CUT, RUNNEL_E_CONFLICT, "only shellac has a 'cut'");
    if (sealer->solids > 0 && by_cut)
        tell(state, RUNNEL_FIELD_SOLIDS, RUNNEL_E_CONFLICT,
             "the solids of shellac follow from its 'cut'; leave 'solids' out");
}
