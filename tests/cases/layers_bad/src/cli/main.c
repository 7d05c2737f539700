/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h" /* bad: public headers only */
#include "cli/options.h"
#include "runnel/runnel.h"

#include <time.h>
#include <yaml.h> /* bad */

int main(void) {
    printf("%s\n", getenv("HOME"));
    return 0;
}
