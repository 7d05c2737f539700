/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Pours dealt out to cups in their order.
 */
#ifndef RUNNEL_RESIN_PARTITION_H
#define RUNNEL_RESIN_PARTITION_H

#include "runnel/cups.h"

/** More of a limit than this share above it is too much; rounding is not. */
#define RUNNEL_LIMIT_SLACK 1e-9

/** Pours and what one cup may give. INFINITY is no limit. */
typedef struct runnel_partition {
    const runnel_pour *pours;
    size_t count;
    double most_mm3;   /**< volume, > 0 */
    double usable_s;   /**< time, > 0 */
    double stretching; /**< how often the usable time may be taken at most, >= 1 */
} runnel_partition;

/** Fewest cups when the time may be taken `stretch` times, 1 to stretching; SIZE_MAX for more than
 * RUNNEL_CUPS_MOST. */
size_t runnel_partition_count(const runnel_partition *partition, double stretch);

/**
 * Deals out to at most `most` cups, as evenly as may be: fills in pours, shares, volume and time.
 *
 * @param most  at least runnel_partition_count at the full stretching, at most RUNNEL_CUPS_MOST
 * @param loads room for `most` of them
 * @return how many there are
 */
size_t runnel_partition_deal(const runnel_partition *partition, size_t most,
                             runnel_cup_load *loads);

#endif
