/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cavity/cavity.h" /* bad: option types only */
#include "runnel/cavity.h"
#include "runnel/runnel.h" /* bad: holds what is above the job */
