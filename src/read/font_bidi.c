/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/font.h"

#include "base/late.h"
#include "base/memory.h"

#include <fribidi/fribidi.h>

#define CALLS(X)                                                                                   \
    X(fribidi_get_bidi_types)                                                                      \
    X(fribidi_get_bracket_types)                                                                   \
    X(fribidi_get_joining_types)                                                                   \
    X(fribidi_get_par_embedding_levels_ex)
RUNNEL_LATE(CALLS, RUNNEL_LATE_FRIBIDI);

static bool joins(FriBidiJoiningType type) {
    return type == FRIBIDI_JOINING_TYPE_R || type == FRIBIDI_JOINING_TYPE_L ||
           type == FRIBIDI_JOINING_TYPE_D;
}

static void find_joining(const uint32_t *characters, size_t count, FriBidiJoiningType *types,
                         runnel_bidi *bidi) {
    lib.fribidi_get_joining_types(characters, (FriBidiStrIndex)count, types);
    for (size_t i = 0; i < count; i++)
        if (joins(types[i])) {
            bidi->joined = true;
            bidi->joining_letter = characters[i];
            return;
        }
}

/* Blanks at the end of a line stand where the line ends (rule L1 of the algorithm). */
static void level_blanks(const FriBidiCharType *types, size_t count, FriBidiLevel line,
                         FriBidiLevel *levels) {
    for (size_t i = count; i-- > 0 && FRIBIDI_IS_EXPLICIT_OR_BN_OR_WS(types[i]);)
        levels[i] = line;
}

runnel_status runnel_bidi_levels(const uint32_t *characters, size_t count, signed char *levels,
                                 runnel_bidi *bidi) {
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    status = RUNNEL_E_NO_MEMORY;
    runnel_bidi found = {0};
    FriBidiStrIndex length = (FriBidiStrIndex)count;
    FriBidiParType direction = FRIBIDI_PAR_ON;
    FriBidiCharType *types = runnel_resize(NULL, count, sizeof *types);
    FriBidiBracketType *brackets = runnel_resize(NULL, count, sizeof *brackets);
    FriBidiJoiningType *joining = runnel_resize(NULL, count, sizeof *joining);
    if (!types || !brackets || !joining)
        goto cleanup;
    lib.fribidi_get_bidi_types(characters, length, types);
    lib.fribidi_get_bracket_types(characters, length, types, brackets);
    /* Its only failure is want of memory. */
    if (!lib.fribidi_get_par_embedding_levels_ex(types, brackets, length, &direction, levels))
        goto cleanup;
    found.right_to_left = FRIBIDI_IS_RTL(direction);
    level_blanks(types, count, found.right_to_left, levels);
    find_joining(characters, count, joining, &found);
    *bidi = found;
    status = RUNNEL_OK;
cleanup:
    runnel_free(types);
    runnel_free(brackets);
    runnel_free(joining);
    return status;
}
