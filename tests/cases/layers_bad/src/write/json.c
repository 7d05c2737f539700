/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/yaml.h" /* bad */
#include "runnel/read.h" /* bad */

#include <jansson.h>
#include <yaml.h> /* bad */
