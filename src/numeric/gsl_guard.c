/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "numeric/gsl_guard.h"

#include <gsl/gsl_errno.h>
#include <stdatomic.h>
#include <stdbool.h>

void runnel_numeric_quiet(void) {
    static atomic_bool quiet;
    if (atomic_load(&quiet))
        return;
    /* Two threads may both come here; they store the same handler, and neither goes on before. */
    gsl_set_error_handler_off();
    atomic_store(&quiet, true);
}
