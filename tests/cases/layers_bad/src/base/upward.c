/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape/overlay.h" /* bad: base is below shape */
#include "runnel/plan.h"   /* bad */
#include "runnel/status.h"

#include <gsl/gsl_errno.h> /* bad: one wall for each third party */
#include <locale.h>
#include <math.h>

/* #include "plan/plan.h" is not an include, nor is malloc(3) a call here. */
const char *help(void) {
    return "call malloc() or getenv() // not"; /* free() neither */
}
void *block(size_t size) {
    return malloc(size); /* bad */
}
