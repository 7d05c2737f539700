/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/order_seed.h"

#include "base/memory.h"

#include <math.h>

/* Ends a part; no name holds one. */
#define END "\x1f"

/* Lengths as whole micrometres, which no locale shows otherwise. */
static long long in_um(double length_mm) {
    return llround(length_mm * 1e3);
}

/* Puts a part behind what there is, which is freed; NULL when either is missing. */
static char *join(char *seed, char *part) {
    char *both = seed && part ? runnel_format_text("%s%s" END, seed, part) : NULL;
    runnel_free(seed);
    runnel_free(part);
    return both;
}

static char *add_piece(char *seed, const runnel_job_piece *piece) {
    seed = join(seed, runnel_format_text("%zu %s %lldx%lldx%lld", piece->count, piece->name,
                                         in_um(piece->length_mm), in_um(piece->width_mm),
                                         in_um(piece->thickness_mm)));
    for (size_t i = 0; i < piece->cavity_count; i++) {
        const runnel_job_cavity *cavity = &piece->cavities[i];
        seed = join(seed, runnel_format_text("%d %s", (int)cavity->source,
                                             cavity->text ? cavity->text : cavity->name));
    }
    return seed;
}

char *runnel_order_seed(const runnel_job *job) {
    if (job->id)
        return runnel_format_text("id %s", job->id);
    char *seed = runnel_format_text("%s" END "%s" END, job->name ? job->name : "",
                                    job->customer ? job->customer : "");
    for (size_t i = 0; i < job->piece_count; i++)
        seed = add_piece(seed, &job->pieces[i]);
    return seed;
}
