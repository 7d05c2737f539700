/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * All of librunnel.
 */
#ifndef RUNNEL_RUNNEL_H
#define RUNNEL_RUNNEL_H

#include "runnel/band.h"
#include "runnel/calendar.h"
#include "runnel/cautions.h"
#include "runnel/cavity.h"
#include "runnel/contours.h"
#include "runnel/cups.h"
#include "runnel/date.h"
#include "runnel/forms.h"
#include "runnel/job.h"
#include "runnel/layers.h"
#include "runnel/lettering.h"
#include "runnel/level.h"
#include "runnel/levelling.h"
#include "runnel/memory.h"
#include "runnel/oil.h"
#include "runnel/oiling.h"
#include "runnel/plan.h"
#include "runnel/profile.h"
#include "runnel/read.h"
#include "runnel/rescue.h"
#include "runnel/resin.h"
#include "runnel/sealer.h"
#include "runnel/sealing.h"
#include "runnel/sheet.h"
#include "runnel/status.h"
#include "runnel/steps.h"
#include "runnel/stock.h"
#include "runnel/stock_csv.h"
#include "runnel/stocking.h"
#include "runnel/tables.h"
#include "runnel/trial.h"
#include "runnel/units.h"
#include "runnel/upkeep.h"
#include "runnel/upkeeping.h"
#include "runnel/wax.h"
#include "runnel/write.h"
#include "runnel/write_finish.h"
#include "runnel/write_upkeep.h"

#endif
