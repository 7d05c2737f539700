/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "numeric/loose.h"

#include <gsl/gsl_errno.h>
#include <geos_c.h> /* bad */

double guess(const char *text) {
    printf("guessing\n"); /* bad */
    return strtod(text, 0); /* bad */
}
double later(struct task *task) {
    return task->time(task) + task->rand;
}
double now(void) {
    double time = 3;
    return time (0) + time; /* bad */
}
