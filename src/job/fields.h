/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The one table of what a job can say: each key with its place in the structs, its dimension and
 * its range. The reader of job files and the checks of a job both work through it.
 */
#ifndef RUNNEL_JOB_FIELDS_H
#define RUNNEL_JOB_FIELDS_H

#include "runnel/job.h"
#include "runnel/units.h"

/** The mapping of the job file that a key stands in. */
typedef enum runnel_scope {
    RUNNEL_SCOPE_JOB,
    RUNNEL_SCOPE_RESIN,
    RUNNEL_SCOPE_SCALE,
    RUNNEL_SCOPE_SHOP,
    RUNNEL_SCOPE_CUP,
    RUNNEL_SCOPE_ERRORS,
    RUNNEL_SCOPE_SEALER,
    RUNNEL_SCOPE_LEVEL,
    RUNNEL_SCOPE_OIL,
    RUNNEL_SCOPE_WAX,
    RUNNEL_SCOPE_UPKEEP,
    RUNNEL_SCOPE_DAYS,
    RUNNEL_SCOPE_DESTINATION,
    RUNNEL_SCOPE_COLOUR,
    RUNNEL_SCOPE_PIECE,
    RUNNEL_SCOPE_CAVITY,
    RUNNEL_SCOPE_COUNT
} runnel_scope;

/** What stands behind a key, and so how it is read. */
typedef enum runnel_kind {
    RUNNEL_KIND_NAME,        /**< one line, into a char * */
    RUNNEL_KIND_TEXT,        /**< lines, into a char * */
    RUNNEL_KIND_QUANTITY,    /**< with a unit, into a double */
    RUNNEL_KIND_PERCENT,     /**< a share, into a double that counts percent */
    RUNNEL_KIND_ENERGY,      /**< kJ/mol, into a double */
    RUNNEL_KIND_HEAT,        /**< J/g, into a double */
    RUNNEL_KIND_NUMBER,      /**< bare, into a double */
    RUNNEL_KIND_COUNT,       /**< whole, into a size_t */
    RUNNEL_KIND_FLAG,        /**< yes or no, into a bool */
    RUNNEL_KIND_ALIGN,       /**< a word, into a runnel_align */
    RUNNEL_KIND_FONT,        /**< a family or a file beside the job */
    RUNNEL_KIND_SINGLE_LINE, /**< a set of single-line letters */
    RUNNEL_KIND_SIZE,        /**< length x width x thickness */
    RUNNEL_KIND_POINT,       /**< x x y, into the cavity's place */
    RUNNEL_KIND_OUTLINE,
    RUNNEL_KIND_PATH,
    RUNNEL_KIND_MEASURED,
    RUNNEL_KIND_CUTTER,
    RUNNEL_KIND_RATIO,       /**< one, or two on different bases */
    RUNNEL_KIND_RESIN_ROW,   /**< name of a row */
    RUNNEL_KIND_RESIN,       /**< name of a row, or a mapping */
    RUNNEL_KIND_SCALE,       /**< step, or a mapping */
    RUNNEL_KIND_SHOP,        /**< a mapping */
    RUNNEL_KIND_CUP,         /**< a mapping */
    RUNNEL_KIND_ERRORS,      /**< a mapping */
    RUNNEL_KIND_SIZE_TO,     /**< a word, into a runnel_size_to */
    RUNNEL_KIND_CUT,         /**< of shellac, into a double */
    RUNNEL_KIND_SEALER_OF,   /**< its kind */
    RUNNEL_KIND_SEALER,      /**< its kind, or a mapping */
    RUNNEL_KIND_ORDER,       /**< of steps */
    RUNNEL_KIND_UNDER,       /**< what lies under the zero */
    RUNNEL_KIND_LEVEL,       /**< a mapping */
    RUNNEL_KIND_OIL,         /**< name of a row, or a mapping */
    RUNNEL_KIND_RECIPE,      /**< of oil to wax */
    RUNNEL_KIND_WAX,         /**< a recipe, or a mapping */
    RUNNEL_KIND_DATE,        /**< a day, into a runnel_date */
    RUNNEL_KIND_USE,         /**< a word, into a runnel_use */
    RUNNEL_KIND_WASHING,     /**< a word, into a runnel_washing */
    RUNNEL_KIND_WATER,       /**< a word, into a runnel_water */
    RUNNEL_KIND_UPKEEP,      /**< the use, or a mapping */
    RUNNEL_KIND_HOURS,       /**< of the shop */
    RUNNEL_KIND_OFF,         /**< days off */
    RUNNEL_KIND_DAYS,        /**< a mapping */
    RUNNEL_KIND_DESTINATION, /**< a mapping */
    RUNNEL_KIND_GRITS,       /**< of sanding */
    RUNNEL_KIND_GRAIN,
    RUNNEL_KIND_EDGES,   /**< a set of edges */
    RUNNEL_KIND_JUICE,   /**< a groove for juice */
    RUNNEL_KIND_HOLDS,   /**< finger holds */
    RUNNEL_KIND_COLOURS, /**< names to tints or mappings */
    RUNNEL_KIND_PIECES,
    RUNNEL_KIND_CAVITIES,
    RUNNEL_KIND_COUNT_OF
} runnel_kind;

/** Keys in the order in which they are read within their scope. */
typedef enum runnel_field_id {
    RUNNEL_FIELD_JOB,
    RUNNEL_FIELD_ID,
    RUNNEL_FIELD_CUSTOMER,
    RUNNEL_FIELD_RESIN,
    RUNNEL_FIELD_RATIO,
    RUNNEL_FIELD_SCALE,
    RUNNEL_FIELD_SHOP,
    RUNNEL_FIELD_MOISTURE,
    RUNNEL_FIELD_DESTINATION,
    RUNNEL_FIELD_CROWN,
    RUNNEL_FIELD_MARGIN,
    RUNNEL_FIELD_SOAK,
    RUNNEL_FIELD_SEALED,
    RUNNEL_FIELD_SEALER,
    RUNNEL_FIELD_RESERVE,
    RUNNEL_FIELD_TOP_UP,
    RUNNEL_FIELD_CUP,
    RUNNEL_FIELD_USABLE,
    RUNNEL_FIELD_ERRORS,
    RUNNEL_FIELD_SIZE_TO,
    RUNNEL_FIELD_BRIDGE,
    RUNNEL_FIELD_FLOOR,
    RUNNEL_FIELD_TOLERANCE,
    RUNNEL_FIELD_SECTIONS,
    RUNNEL_FIELD_LEVEL,
    RUNNEL_FIELD_OIL,
    RUNNEL_FIELD_WAX,
    RUNNEL_FIELD_UPKEEP,
    RUNNEL_FIELD_DAYS,
    RUNNEL_FIELD_ORDER,
    RUNNEL_FIELD_GRITS,
    RUNNEL_FIELD_RAISINGS,
    RUNNEL_FIELD_MASK,
    RUNNEL_FIELD_COLOURS,
    RUNNEL_FIELD_PIECES,

    RUNNEL_FIELD_RESIN_ROW,
    RUNNEL_FIELD_RESIN_RATIO,
    RUNNEL_FIELD_DENSITY_A,
    RUNNEL_FIELD_DENSITY_B,
    RUNNEL_FIELD_VISCOSITY,
    RUNNEL_FIELD_SHRINKAGE,
    RUNNEL_FIELD_STATED,
    RUNNEL_FIELD_LOWEST,
    RUNNEL_FIELD_POT_LIFE,
    RUNNEL_FIELD_POT_MASS,
    RUNNEL_FIELD_GEL,
    RUNNEL_FIELD_RECOAT_FROM,
    RUNNEL_FIELD_RECOAT_UNTIL,
    RUNNEL_FIELD_SANDABLE,
    RUNNEL_FIELD_FULL_CURE,
    RUNNEL_FIELD_DEEPEST_LAYER,
    RUNNEL_FIELD_LARGEST_MASS,
    RUNNEL_FIELD_RATIO_TOLERANCE,
    RUNNEL_FIELD_TINT_DEFAULT,
    RUNNEL_FIELD_TINT_CAP,
    RUNNEL_FIELD_ENERGY,
    RUNNEL_FIELD_REACTION,

    RUNNEL_FIELD_STEP,
    RUNNEL_FIELD_ACCURACY,
    RUNNEL_FIELD_COUNTS,

    RUNNEL_FIELD_TEMPERATURE,
    RUNNEL_FIELD_HUMIDITY,

    RUNNEL_FIELD_THERE_TEMPERATURE,
    RUNNEL_FIELD_THERE_HUMIDITY,

    RUNNEL_FIELD_DIAMETER,
    RUNNEL_FIELD_DRAIN,
    RUNNEL_FIELD_LOSS,
    RUNNEL_FIELD_BRIM,

    RUNNEL_FIELD_DEPTH_ERROR,
    RUNNEL_FIELD_ANGLE_ERROR,
    RUNNEL_FIELD_FLATNESS,
    RUNNEL_FIELD_SOAK_ERROR,

    RUNNEL_FIELD_SEALER_KIND,
    RUNNEL_FIELD_CUT,
    RUNNEL_FIELD_COVERAGE,
    RUNNEL_FIELD_DRY_FILM,
    RUNNEL_FIELD_WET_FILM,
    RUNNEL_FIELD_SOLIDS,
    RUNNEL_FIELD_THINNER,
    RUNNEL_FIELD_SEALER_LOSS,
    RUNNEL_FIELD_COATS,
    RUNNEL_FIELD_FACE_MARGIN,
    RUNNEL_FIELD_RECOAT,
    RUNNEL_FIELD_HARD,

    RUNNEL_FIELD_ZERO_ON,
    RUNNEL_FIELD_PASS,
    RUNNEL_FIELD_BELOW,
    RUNNEL_FIELD_TAKE_OFF,
    RUNNEL_FIELD_THIN,
    RUNNEL_FIELD_HIGH_SPOT,
    RUNNEL_FIELD_VENEER,

    RUNNEL_FIELD_OIL_KIND,
    RUNNEL_FIELD_UPTAKE,
    RUNNEL_FIELD_END_GRAIN,
    RUNNEL_FIELD_OIL_COATS,
    RUNNEL_FIELD_FALL,
    RUNNEL_FIELD_OIL_WASTE,

    RUNNEL_FIELD_RECIPE,
    RUNNEL_FIELD_WAX_KIND,
    RUNNEL_FIELD_WAX_COATS,
    RUNNEL_FIELD_WAX_COAT,
    RUNNEL_FIELD_WAX_WASTE,

    RUNNEL_FIELD_USE,
    RUNNEL_FIELD_WASHING,
    RUNNEL_FIELD_WATER,
    RUNNEL_FIELD_DELIVERED,
    RUNNEL_FIELD_OILED,

    RUNNEL_FIELD_START,
    RUNNEL_FIELD_READY_BY,
    RUNNEL_FIELD_HOURS,
    RUNNEL_FIELD_OFF,
    RUNNEL_FIELD_ZONE,

    RUNNEL_FIELD_TINT,

    RUNNEL_FIELD_PIECE_NAME,
    RUNNEL_FIELD_WOOD,
    RUNNEL_FIELD_SIZE,
    RUNNEL_FIELD_COUNT,
    RUNNEL_FIELD_PIECE_POUR,
    RUNNEL_FIELD_CARVE,
    RUNNEL_FIELD_GRAIN,
    RUNNEL_FIELD_CHAMFER,
    RUNNEL_FIELD_CHAMFERED,
    RUNNEL_FIELD_JUICE,
    RUNNEL_FIELD_HOLDS,
    RUNNEL_FIELD_CAVITIES,

    RUNNEL_FIELD_CAVITY_NAME,
    RUNNEL_FIELD_TEXT,
    RUNNEL_FIELD_OUTLINE,
    RUNNEL_FIELD_PATH,
    RUNNEL_FIELD_MEASURED,
    RUNNEL_FIELD_FONT,
    RUNNEL_FIELD_SINGLE_LINE,
    RUNNEL_FIELD_CAP_HEIGHT,
    RUNNEL_FIELD_TEXT_HEIGHT,
    RUNNEL_FIELD_LETTER_SPACING,
    RUNNEL_FIELD_LINE_SPACING,
    RUNNEL_FIELD_ALIGN,
    RUNNEL_FIELD_AXES,
    RUNNEL_FIELD_CUTTER,
    RUNNEL_FIELD_DEPTH_LIMIT,
    RUNNEL_FIELD_DEPTH,
    RUNNEL_FIELD_COLOUR,
    RUNNEL_FIELD_POUR,
    RUNNEL_FIELD_AT,
    RUNNEL_FIELD_FOOTPRINT,
    RUNNEL_FIELD_WALL_AREA,
    RUNNEL_FIELD_DEEPEST,
    RUNNEL_FIELD_COUNT_OF
} runnel_field_id;

/** Flags of a field: how its range and its absence are told. */
enum {
    RUNNEL_ABOVE = 1,         /**< the lower end itself is not allowed */
    RUNNEL_NONE_ZERO = 2,     /**< 0 stands for "not given" */
    RUNNEL_NONE_NEGATIVE = 4, /**< a negative value stands for "not given" */
    RUNNEL_NONE_NAN = 8,      /**< NAN stands for "not known" */
    RUNNEL_WITH_TEXT = 16,    /**< goes with these sources of shape only; no bit: with all */
    RUNNEL_WITH_OUTLINE = 32,
    RUNNEL_WITH_PATH = 64,
    RUNNEL_WITH_MEASURED = 128
};

/** One row. Numbers have a range when `range` is set. */
typedef struct runnel_field {
    const char *key; /**< as written in a file, words parted by one blank */
    runnel_scope scope;
    runnel_kind kind;
    runnel_dimension dimension; /**< of a quantity */
    size_t offset;              /**< in the struct of the scope (runnel_field_target) */
    double low, high;           /**< inside units; `low` and `high` themselves are allowed */
    unsigned flags;
    const char *range;  /**< what is allowed, in words, after "must be" */
    const char *option; /**< option of the command; NULL: named as the key */
} runnel_field;

/** Where a value stands: piece (or colour) and cavity by index, RUNNEL_NOWHERE where there is none.
 */
typedef struct runnel_spot {
    size_t first, second;
} runnel_spot;

#define RUNNEL_NOWHERE ((size_t)-1)

/** Row of a key. */
const runnel_field *runnel_field_row(runnel_field_id id);

/** Name of a scope for messages, such as "a cavity". */
const char *runnel_scope_text(runnel_scope scope);

/** Address of a field's value; the pieces and colours that `spot` names must be there. */
void *runnel_field_target(runnel_job *job, runnel_spot spot, runnel_field_id id);

/**
 * The value of a number as text with a unit, for messages ("12.5 mm").
 * @return buffer
 */
char *runnel_field_show(const runnel_field *row, double value, char *buffer, size_t size);

/**
 * The path of a key of a scope, such as "pieces[0].cavities[2].depth limit", or the option of that
 * name ("--depth-limit") for a job without a file. For a scope in a colour its name must be there.
 * @return buffer
 */
char *runnel_scope_path(const runnel_job *job, runnel_spot spot, runnel_scope scope,
                        const char *key, char *buffer, size_t size);

/** The same for a field. */
char *runnel_field_path(const runnel_job *job, runnel_spot spot, runnel_field_id id, char *buffer,
                        size_t size);

#endif
