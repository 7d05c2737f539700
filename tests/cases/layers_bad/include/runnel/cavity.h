/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/contours.h"
#include "runnel/job.h" /* bad: above */
#include "shape/ring.h" /* bad: private in public */
