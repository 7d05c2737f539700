/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Included first of all when clang-tidy looks at the sources (make lint), never when they are
 * compiled. The analyser sees one file at a time, so it must be told what others promise:
 * that runnel_problems_add returns the status that it was given. Without this it believes in
 * failures that return RUNNEL_OK, and then in results that nobody set.
 */
#ifndef RUNNEL_TESTS_ANALYZER_H
#define RUNNEL_TESTS_ANALYZER_H

#include "runnel/status.h"

#define runnel_problems_add(problems, status, ...)                                                 \
    ((void)(runnel_problems_add)((problems), (status), __VA_ARGS__), (status))

#endif
