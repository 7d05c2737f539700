/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Comparator for numbers in tests: inclusive, aware of NaN and infinity, relative and absolute,
 * prints 17 digits. (Check's own is strict, absolute only, and fails on equal values at 0.)
 */
#ifndef RUNNEL_TESTS_COMPARE_H
#define RUNNEL_TESTS_COMPARE_H

#include <check.h>
#include <math.h>
#include <stdbool.h>

static inline bool runnel_near(double got, double want, double relative, double absolute) {
    if (isnan(want) || isnan(got))
        return isnan(want) && isnan(got);
    if (isinf(want) || isinf(got))
        return got == want;
    double gap = fabs(got - want);
    return gap <= absolute || gap <= relative * fabs(want);
}

/** Fails unless |got - want| <= relative * |want|. */
#define ck_near(got, want, relative) ck_near_or((got), (want), (relative), 0.0)

/** Fails unless |got - want| <= relative * |want| or <= absolute. */
#define ck_near_or(got, want, relative, absolute)                                                  \
    do {                                                                                           \
        double got_ = (got), want_ = (want), rel_ = (relative), abs_ = (absolute);                 \
        ck_assert_msg(runnel_near(got_, want_, rel_, abs_),                                        \
                      "%s: got %.17g, want %.17g (relative %g, absolute %g, gap %.3g)", #got,      \
                      got_, want_, rel_, abs_, got_ - want_);                                      \
    } while (0)

#endif
