/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What tells one order from another, for the seeds of its events.
 */
#ifndef RUNNEL_WRITE_ORDER_SEED_H
#define RUNNEL_WRITE_ORDER_SEED_H

#include "runnel/job.h"

/**
 * A text that is the same whenever and wherever a job is planned, and another for another order:
 * its id where it has one; else its name, its customer, and of each piece name, size and count and
 * what is carved. Dates, resin and file have no part in it.
 *
 * @return owned; NULL when memory ran out
 */
char *runnel_order_seed(const runnel_job *job);

#endif
