/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The reference tables of data/, with the user's own rows over them.
 *
 * A table is a CSV file: UTF-8 (with or without a byte order mark), lines ended by LF or CRLF,
 * cells separated by commas or by semicolons (told from the header line, or by a first line
 * "sep=;"), cells in double quotes where they hold a separator, a line end or a quote (doubled).
 * Columns are found by their name in the header, in any order. A column that measures something
 * carries its unit in brackets, "pot life [min]" or "pot life [h]"; the cells are plain numbers
 * with a decimal point. An empty cell is a value that is not known.
 */
#ifndef RUNNEL_TABLES_H
#define RUNNEL_TABLES_H

#include "runnel/cavity.h"
#include "runnel/oil.h"
#include "runnel/resin.h"
#include "runnel/status.h"
#include "runnel/upkeep.h"

#ifdef __cplusplus
extern "C" {
#endif

/** A row of resins.csv. Never NAN: the ratio, both densities, viscosity, shrinkage, ratio tolerance
 * and both tints; the rest is NAN where the sheet does not say, but times and a pot life never
 * stand without their temperature and their mass. */
typedef struct runnel_resin_row {
    runnel_resin resin;
    char *file; /**< table that the row came from */
} runnel_resin_row;

/** A row of cutters.csv. */
typedef struct runnel_cutter_row {
    char *name; /**< such as "v-60", "round-nose-1/4in", "flat-6mm" */
    runnel_cutter cutter;
    double diameter_mm; /**< round-nose, flat: twice the radius; V: of the body, NAN if not told */
    char *source, *date, *sure; /**< as in runnel_resin */
    char *file;
} runnel_cutter_row;

/** A row of woods.csv. The density and both soaks are never NAN, the rest is NAN where unknown. */
typedef struct runnel_wood {
    char *name; /**< such as "hard maple" */
    char *also; /**< further names it is found by, with commas between; may be empty */
    char *botanical;
    double density_kg_per_m3; /**< at 12 % moisture content */
    double shrinkage_radial_percent,
        shrinkage_tangential_percent; /**< green to oven-dry, percent of the green size */
    double coefficient_radial, coefficient_tangential; /**< share of the size that it changes by per
                                                          1 % moisture content, from 6 to 14 % */
    bool open_pored;
    double soak_bare_ml_per_m2;   /**< resin drunk by carved, bare walls */
    double soak_sealed_ml_per_m2; /**< the same by sealed walls, at most as much */
    char *source, *date, *sure;   /**< of all but the soaks, as in runnel_resin */
    char *soak_sure;              /**< how sure the soaks are */
    char *file;
} runnel_wood;

/** A row of oils.csv. Never NAN: density, uptake, end grain factor and coats; the rest is NAN where
 * it is not known, and an oil that stays wet has no full cure. */
typedef struct runnel_oil_row {
    runnel_oil oil;
    char *file;
} runnel_oil_row;

/** A row of upkeep.csv. Never NAN: the steady wait, the share and the factors; the coat of a
 * coating. */
typedef struct runnel_upkeep_row {
    runnel_upkeep_rule rule;
    char *file;
} runnel_upkeep_row;

/** Work with hands on a job. */
typedef enum runnel_work {
    RUNNEL_WORK_FLATTEN,
    RUNNEL_WORK_CARVE,
    RUNNEL_WORK_CLEAN,
    RUNNEL_WORK_MASK,
    RUNNEL_WORK_SEAL,  /**< a coat of sealer */
    RUNNEL_WORK_POUR,  /**< a layer of a colour, mixed and poured */
    RUNNEL_WORK_SCUFF, /**< a layer that was left too long */
    RUNNEL_WORK_LEVEL,
    RUNNEL_WORK_SAND, /**< with one grit */
    RUNNEL_WORK_RAISE_GRAIN,
    RUNNEL_WORK_KNOCK_DOWN,
    RUNNEL_WORK_SHAPE, /**< chamfers and profiles */
    RUNNEL_WORK_OIL,   /**< a coat */
    RUNNEL_WORK_WIPE,  /**< the oil of a coat off */
    RUNNEL_WORK_COAT,  /**< of a coating for outdoors */
    RUNNEL_WORK_WAX,
    RUNNEL_WORK_BUFF,
    RUNNEL_WORK_WRAP,
    RUNNEL_WORK_COUNT
} runnel_work;

/** Name of a work, as in work.csv, such as "raise-grain"; "?" for what is none. */
const char *runnel_work_text(runnel_work work);

/** A row of work.csv: how long hands are busy. Never NAN. */
typedef struct runnel_work_row {
    char *name;             /**< of runnel_work_text */
    char *once_for;         /**< in words, such as "a coat" */
    double setup_s, each_s; /**< to set up and clear away, and for each piece */
    bool divides;           /**< may be left at the end of the hours and taken up again */
    char *source, *date, *sure;
    char *file;
} runnel_work_row;

/** All tables. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_tables {
    runnel_resin_row *resins;
    size_t resin_count, resin_capacity;
    runnel_cutter_row *cutters;
    size_t cutter_count, cutter_capacity;
    runnel_wood *woods;
    size_t wood_count, wood_capacity;
    runnel_oil_row *oils;
    size_t oil_count, oil_capacity;
    runnel_upkeep_row *upkeeps;
    size_t upkeep_count, upkeep_capacity;
    runnel_work_row *works;
    size_t work_count, work_capacity;
} runnel_tables;

/** Most rows that one table may have. */
#define RUNNEL_TABLE_ROWS 4096

/** Frees all and leaves empty tables. NULL is allowed. */
void runnel_tables_clear(runnel_tables *tables);

/**
 * Reads resins.csv, cutters.csv, woods.csv, oils.csv, upkeep.csv and work.csv of each directory
 * over what is there. A row replaces the whole row of the same name that came before it and keeps
 * its place; the other rows follow. A missing file is left out; a directory with none of them is a
 * problem.
 *
 * All problems are told with file, line, column (in characters) and the header of the column, and
 * then no row of any table is taken: an unknown column or word with the nearest known one, a
 * missing column, cell or unit, a name twice in one file, a value out of its range, and whatever
 * keeps the file from being a table.
 *
 * @param directories NULL among them is passed over
 * @param problems    may be NULL
 * @param tables      untouched on failure
 */
runnel_status runnel_tables_read_all(const char *const *directories, size_t count,
                                     runnel_problems *problems, runnel_tables *tables);

/** Reads one directory; see runnel_tables_read_all. */
runnel_status runnel_tables_read(runnel_tables *tables, const char *directory,
                                 runnel_problems *problems);

/** Where tables may stand. The caller reads the environment, as the library does not. NULL or ""
 * is "not given". */
typedef struct runnel_table_places {
    const char *installed;     /**< directory of the tables that come with the program */
    const char *xdg_data_home; /**< environment XDG_DATA_HOME; relative ones do not count */
    const char *home;          /**< environment HOME, for HOME/.local/share in its stead */
    const char *environment;   /**< environment RUNNEL_DATA: a directory */
    const char *option;        /**< the same by option, in place of the environment's */
} runnel_table_places;

/**
 * Reads the tables of all places, later over earlier: installed, then the folder "runnel" of the
 * user's data home (left out when it has none), then the option's directory, else the
 * environment's, which must have one. It is a problem when a table is found nowhere.
 *
 * @param problems may be NULL
 * @param tables   untouched on failure
 */
runnel_status runnel_tables_read_places(const runnel_table_places *places,
                                        runnel_problems *problems, runnel_tables *tables);

/** Row by name; NULL when there is none. Borrowed from the tables. Case (a to z), blanks, hyphens
 * and underscores do not count, but between two digits a run of them counts as one blank: "v60" is
 * "V-60", "table top 2:1" is "table-top 2:1". A wood is found by its further names too, after all
 * names proper. */
const runnel_resin_row *runnel_tables_resin(const runnel_tables *tables, const char *name);
const runnel_cutter_row *runnel_tables_cutter(const runnel_tables *tables, const char *name);
const runnel_wood *runnel_tables_wood(const runnel_tables *tables, const char *name);
const runnel_oil_row *runnel_tables_oil(const runnel_tables *tables, const char *name);
const runnel_work_row *runnel_tables_work(const runnel_tables *tables, runnel_work work);

/** The rule of upkeep for a finish and a use; NULL when there is none. Borrowed from the tables. Of
 * several the last one holds, so that a user's own row stands over those that were there. */
const runnel_upkeep_rule *runnel_tables_upkeep(const runnel_tables *tables,
                                               runnel_upkeep_finish finish, runnel_use use);

/**
 * The row name nearest to a misspelt one.
 *
 * @param which "resins", "cutters", "woods" or "oils"
 * @return borrowed from the tables; for a further name of a wood the wood's own; NULL when none is
 *         near, when there is no such table, or when memory runs out
 */
const char *runnel_tables_nearest(const runnel_tables *tables, const char *which, const char *name);

#ifdef __cplusplus
}
#endif
#endif
