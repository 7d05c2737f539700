/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/paper.h"

#include "base/slice.h"
#include "base/suggest.h"

static const struct {
    const char *name;
    double width_mm, height_mm;
} sizes[RUNNEL_PAPER_SIZES] = {
    [RUNNEL_PAPER_A4] = {"a4", 210, 297},
    [RUNNEL_PAPER_LETTER] = {"letter", 8.5 * 25.4, 11 * 25.4},
    [RUNNEL_PAPER_A5] = {"a5", 148, 210},
    [RUNNEL_PAPER_4X6] = {"4x6", 4 * 25.4, 6 * 25.4},
};

const char *runnel_paper_text(runnel_paper_size size) {
    return (unsigned)size < RUNNEL_PAPER_SIZES ? sizes[size].name : "?";
}

runnel_status runnel_paper_measure(runnel_paper_size size, double *width_mm, double *height_mm) {
    if ((unsigned)size >= RUNNEL_PAPER_SIZES)
        return RUNNEL_E_RANGE;
    *width_mm = sizes[size].width_mm;
    *height_mm = sizes[size].height_mm;
    return RUNNEL_OK;
}

runnel_status runnel_paper_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_paper_size *size) {
    char shown[RUNNEL_SHOWN_SIZE];
    for (int i = 0; i < RUNNEL_PAPER_SIZES; i++) {
        if (!runnel_word_distance(text, sizes[i].name)) {
            *size = (runnel_paper_size)i;
            return RUNNEL_OK;
        }
    }
    return runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place,
                               "'%s' is no size of paper; it must be 'a4', 'letter', 'a5' or "
                               "'4x6'",
                               runnel_slice_show(runnel_slice_of(text), shown));
}
