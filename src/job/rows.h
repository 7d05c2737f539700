/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Rows of the reference tables: their keys and their memory.
 */
#ifndef RUNNEL_JOB_ROWS_H
#define RUNNEL_JOB_ROWS_H

#include "runnel/tables.h"

/** Whether two names are the same key (see runnel_tables_resin). NULL is no name. */
bool runnel_row_name_equal(const char *one, const char *other);

/**
 * Next of the names in a list with commas between, without the blanks around it.
 *
 * @param list   rest of the list, moved on; NULL or "" is an empty list
 * @param length bytes of the name, above 0
 * @return start of the name, or NULL at the end
 */
const char *runnel_row_next_name(const char **list, size_t *length);

/** Frees what a row owns and zeroes it. */
void runnel_resin_row_clear(runnel_resin_row *row);
void runnel_cutter_row_clear(runnel_cutter_row *row);
void runnel_wood_clear(runnel_wood *wood);
void runnel_oil_row_clear(runnel_oil_row *row);
void runnel_upkeep_row_clear(runnel_upkeep_row *row);
void runnel_work_row_clear(runnel_work_row *row);

#endif
