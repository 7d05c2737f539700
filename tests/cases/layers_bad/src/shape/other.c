/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <geos_c.h> /* bad: one file only */
#include "overlay.h" /* bad: without its layer */
#include "kitchen/sink.h" /* bad: no such layer */
#include "runnel/sink.h" /* bad: no such header */
