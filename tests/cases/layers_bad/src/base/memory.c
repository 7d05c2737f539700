/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdlib.h>

void *block(size_t size) {
    return malloc(size);
}
