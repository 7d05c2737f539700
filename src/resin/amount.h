/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Checks of numbers that come in, the same in each file of this layer.
 */
#ifndef RUNNEL_RESIN_AMOUNT_H
#define RUNNEL_RESIN_AMOUNT_H

#include "base/amount.h"

#endif
