/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The reference tables of data/, with the user's own rows over them.
 */
#ifndef RUNNEL_TABLES_H
#define RUNNEL_TABLES_H

#include "runnel/cavity.h"
#include "runnel/resin.h"
#include "runnel/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** A row of cutters.csv. */
typedef struct runnel_cutter_row {
    char *name; /**< such as "v-60", "round-nose-1/4in", "flat-6mm" */
    runnel_cutter cutter;
    char *source, *date, *sure;
    char *file; /**< table that the row came from */
} runnel_cutter_row;

/** A row of woods.csv. NAN where unknown. */
typedef struct runnel_wood {
    char *name; /**< such as "hard maple" */
    char *botanical;
    double density_kg_per_m3;                                      /**< at 12 % moisture content */
    double shrinkage_radial_percent, shrinkage_tangential_percent; /**< green to oven-dry */
    double coefficient_radial,
        coefficient_tangential; /**< change per 1 % moisture content, 6 to 14 % */
    bool open_pored;
    double soak_bare_ml_per_m2; /**< resin drunk by carved, bare walls */
    double soak_sealed_ml_per_m2;
    char *source, *date, *sure;
    char *file;
} runnel_wood;

/** A row of resins.csv and where it came from. */
typedef struct runnel_resin_row {
    runnel_resin resin;
    char *file;
} runnel_resin_row;

/** All tables. Zero-initialised is empty; owned by the caller. Later rows of one name replace
 * earlier ones. */
typedef struct runnel_tables {
    runnel_resin_row *resins;
    size_t resin_count, resin_capacity;
    runnel_cutter_row *cutters;
    size_t cutter_count, cutter_capacity;
    runnel_wood *woods;
    size_t wood_count, wood_capacity;
} runnel_tables;

/** Frees all and leaves empty tables. */
void runnel_tables_clear(runnel_tables *tables);

/**
 * Reads resins.csv, cutters.csv and woods.csv of a directory over what is there; a missing file is
 * left out, a directory with none of them is a problem. Columns are found by their header, which
 * carries the unit in brackets ("pot life [min]"); unknown columns are a problem with the nearest
 * known name. All problems are told with file, line and column.
 */
runnel_status runnel_tables_read(runnel_tables *tables, const char *directory,
                                 runnel_problems *problems);

/** Row by name, compared without regard to case and to runs of blanks, hyphens and underscores;
 * NULL when there is none. Borrowed from the tables. */
const runnel_resin_row *runnel_tables_resin(const runnel_tables *tables, const char *name);
const runnel_cutter_row *runnel_tables_cutter(const runnel_tables *tables, const char *name);
const runnel_wood *runnel_tables_wood(const runnel_tables *tables, const char *name);

/** The row name nearest to a misspelt one (borrowed), or NULL when none is near. */
const char *runnel_tables_nearest(const runnel_tables *tables, const char *which, const char *name);

#ifdef __cplusplus
}
#endif
#endif
