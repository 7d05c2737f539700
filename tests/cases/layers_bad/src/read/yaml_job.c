/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/model.h"
#include "runnel/plan.h"
#include "write/json.h"     /* bad: readers and writers know nothing of each other */
#include "runnel/write.h"   /* bad */

#include <jansson.h> /* bad */
#include <yaml.h>
