/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Keeps GSL from ending the process: its default handler aborts on any error.
 */
#ifndef RUNNEL_NUMERIC_GSL_GUARD_H
#define RUNNEL_NUMERIC_GSL_GUARD_H

/**
 * Turns GSL's aborting error handler off, once for the process. Each function of this layer calls
 * it before its first call of GSL, so nobody else needs to. A program that sets a handler of its
 * own afterwards keeps it.
 */
void runnel_numeric_quiet(void);

#endif
