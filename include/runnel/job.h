/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A job: pieces with their cavities, the resin, the scale and the shop; defaults and checks.
 */
#ifndef RUNNEL_JOB_H
#define RUNNEL_JOB_H

#include "runnel/band.h"
#include "runnel/cavity.h"
#include "runnel/forms.h"
#include "runnel/lettering.h"
#include "runnel/level.h"
#include "runnel/oil.h"
#include "runnel/resin.h"
#include "runnel/sealer.h"
#include "runnel/status.h"
#include "runnel/tables.h"
#include "runnel/timeline.h"
#include "runnel/upkeep.h"
#include "runnel/wax.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Where the shape of a cavity comes from. */
typedef enum runnel_source {
    RUNNEL_SOURCE_NONE,
    RUNNEL_SOURCE_TEXT,
    RUNNEL_SOURCE_OUTLINE,
    RUNNEL_SOURCE_PATH,
    RUNNEL_SOURCE_MEASURED
} runnel_source;

/** Where a value stands in the job's file; 0 = nowhere. */
typedef struct runnel_position {
    size_t line, column;
} runnel_position;

/** One cavity. Strings are owned. Lengths 0 = not given. */
typedef struct runnel_job_cavity {
    char *name;
    char *colour;
    runnel_source source;
    char *text;       /**< text: UTF-8, lines by \n */
    char *font;       /**< text: family, "Family:Style", a file, or a Hershey set */
    char *axes;       /**< text: variable font settings, or NULL */
    bool single_line; /**< text: centre lines to be followed by the cutter */
    runnel_align align;
    double cap_height_mm, text_height_mm, spacing_mm, line_spacing;
    runnel_form form;    /**< outline and path */
    double measured_mm3; /**< measured: volume; see runnel_measured_parse */
    double measured_footprint_mm2, measured_wall_mm2, measured_deepest_mm; /**< 0 = not given */
    double pour_s;           /**< to pour it in one piece; 0 = not given */
    bool is_placed;          /**< it is told where on the piece it is ... */
    double at_x_mm, at_y_mm; /**< ... the lower left of its box at the face, from the piece's */
    double depth_mm;         /**< constant depth of a pocket or along a path, as given */
    double depth_limit_mm;   /**< deepest that a V cutter goes between walls, as given */
    runnel_cut cut;          /**< the cutter; runnel_job_check sets rule and depth from the above */
    char *cutter_name;       /**< as written */
    size_t line, column;     /**< of the cavity in the file; 0 = none */
    runnel_position source_at, font_at, axes_at; /**< of what tells these */
} runnel_job_cavity;

/** One piece, `count` times. */
typedef struct runnel_job_piece {
    char *name;
    char *wood;                               /**< as written, or NULL */
    double length_mm, width_mm, thickness_mm; /**< 0 = not given */
    size_t count;                             /**< 1 or more */
    double pour_s;  /**< to pour all its cavities of a colour, in one piece; 0 = not given */
    double carve_s; /**< hands' time to carve one piece; 0 = not given */
    runnel_grain grain;
    double chamfer_mm;        /**< 0 = none */
    unsigned chamfered;       /**< set of RUNNEL_EDGE_BIT; 0 = all */
    runnel_groove_form juice; /**< groove for juice */
    runnel_groove_form holds; /**< finger holds */
    runnel_job_cavity *cavities;
    size_t cavity_count, cavity_capacity;
    size_t line, column;
} runnel_job_piece;

/** A colour of the job. */
typedef struct runnel_job_colour {
    char *name;
    double tint; /**< share of the mass of A + B; negative = the resin's default */
} runnel_job_colour;

/** The sealer of a job, as told. 0 = not given, but where it says otherwise. */
typedef struct runnel_job_sealer {
    runnel_sealer_kind kind;
    bool kind_is_default;
    double cut_lb_per_gal;           /**< shellac */
    double m2_per_l;                 /**< coverage */
    double dry_film_mm, wet_film_mm; /**< in place of the coverage */
    double solids;                   /**< share of the volume */
    double thinner;                  /**< volumes for each of the product; 0 = none */
    double loss;                     /**< share lost in brush and pot; negative = not given */
    size_t coats;                    /**< 0 = not given */
    double face_margin_mm;           /**< face sealed beside the edges; negative = as the crown's */
    double recoat_s, hard_s;         /**< from coat to coat, and to the pour; 0 = by the kind */
} runnel_job_sealer;

/** How a job is levelled, as told. */
typedef struct runnel_job_level {
    runnel_under_zero under; /**< nothing = the bare wood */
    bool under_is_default;
    double pass_mm;      /**< most of one pass; 0 = not given */
    double below_mm;     /**< how far the cutter is set below what it was zeroed on */
    double take_off_mm;  /**< wood sanded off the face; negative = not given */
    double thin_mm;      /**< strokes left no wider are listed; negative = not given */
    double high_spot_mm; /**< how much the highest place stands above the one that was zeroed on */
    double veneer_mm;    /**< thickness of a face veneer; 0 = solid wood */
} runnel_job_level;

/** The oil of a job, as told. */
typedef struct runnel_job_oil {
    char *name;        /**< row of the oils; owned; NULL = not given */
    double uptake_mm;  /**< of a coat on face grain; 0 = as the row says */
    double end_factor; /**< uptake of end grain to that; 0 = as the row says */
    size_t coats;      /**< 0 = as the row says */
    double fall;       /**< share by which each coat takes less than the one before */
    double waste;      /**< share that ends in brush and rag; negative = not given */
} runnel_job_oil;

/** The wax of a job, as told. */
typedef struct runnel_job_wax {
    runnel_wax_recipe recipe; /**< oil_by NONE = no wax */
    char *kind;               /**< of runnel_waxes; owned; NULL = beeswax */
    size_t coats;             /**< 0 = one */
    double coat_mm;           /**< volume of a coat for each area; 0 = the usual one */
    double waste;             /**< as of the oil */
} runnel_job_wax;

/** How the pieces of a job live, as told. */
typedef struct runnel_job_upkeep {
    runnel_use use;
    runnel_washing washing;
    runnel_water water;
    runnel_date delivered; /**< zero = not given */
    runnel_date oiled;     /**< last coat by the owner; zero = not given */
} runnel_job_upkeep;

/** The days of a job, as told. */
typedef struct runnel_job_days {
    runnel_date start;    /**< first day of work; zero = as late as `ready_by` allows */
    runnel_date ready_by; /**< last day to be ready to ship; zero = as soon as can be */
    char *hours;          /**< of the shop, as written; NULL = RUNNEL_DEFAULT_HOURS */
    runnel_week week;     /**< the same, read; only with `hours` */
    runnel_days_off off;
    char *zone; /**< name of the zone of its clock; NULL = every day has 24 h */
} runnel_job_days;

/** Air where the pieces will live, as told. */
typedef struct runnel_job_destination {
    double degc;
    double humidity; /**< fraction; negative = not given */
} runnel_job_destination;

/** What batches are sized for. */
typedef enum runnel_size_to {
    RUNNEL_SIZE_HIGH,  /**< what the cavities may take when errors add up */
    RUNNEL_SIZE_LIKELY /**< what they take when all is as told */
} runnel_size_to;

/** A job. Use runnel_job_init before and runnel_job_clear after. */
typedef struct runnel_job {
    char *name;
    char *id;                 /**< of the order, kept with it; NULL = not given */
    char *customer;           /**< NULL = not given */
    char *file;               /**< NULL for a job from the command line */
    runnel_resin resin;       /**< a copy of the row with the user's changes */
    bool resin_is_default;    /**< nobody named one */
    bool resin_changed;       /**< the job gives values of its own over the row's */
    runnel_ratio other_ratio; /**< second ratio on the other basis, basis NONE when not given */
    runnel_scale scale;
    bool scale_is_default;
    double shop_degc;
    bool shop_is_default;
    double humidity; /**< fraction; negative = not given */
    double moisture; /**< of the wood, measured, share of its dry mass; negative = not given */
    runnel_job_destination destination;
    double crown_mm, margin_mm;
    bool sealed;    /**< carved walls sealed before the pour */
    double soak_mm; /**< mm3 per mm2; negative = by wood and `sealed` */
    double reserve; /**< fraction */
    double top_up;  /**< fraction of the cavities that is mixed again, later, for pinholes */
    runnel_cup cup;
    double brim_mm3;     /**< what the cup holds to its brim; 0 = not given */
    double usable_share; /**< of the pot life in which a cup should be poured */
    runnel_band_errors errors;
    bool errors_are_default; /**< nobody told any */
    runnel_size_to size_to;
    double bridge_mm;       /**< least wood between two colours */
    double floor_mm;        /**< wood that must stay under the deepest point */
    double flatten_mm;      /**< chord tolerance of curves */
    double section_step_mm; /**< distance between the levels whose section areas are wanted; 0 =
                               none */
    runnel_job_sealer sealer;
    runnel_job_level level;
    runnel_job_oil oil;
    runnel_job_wax wax;
    runnel_job_upkeep upkeep;
    runnel_job_days days;
    runnel_order order; /**< of the steps; none = the usual one */
    runnel_grits grits; /**< of sanding; none = RUNNEL_DEFAULT_GRITS */
    double raisings;    /**< how often the grain is raised; negative = as the order says */
    bool mask;          /**< the face masked before the pour */
    runnel_job_colour *colours;
    size_t colour_count, colour_capacity;
    runnel_job_piece *pieces;
    size_t piece_count, piece_capacity;
} runnel_job;

/** Fills in the defaults below and no piece. */
void runnel_job_init(runnel_job *job);
/** Frees all and zeroes it. */
void runnel_job_clear(runnel_job *job);

/** Appends an empty piece (count 1) or cavity, or finds or appends a colour; the pointer is good
 * until the next append. */
runnel_status runnel_job_add_piece(runnel_job *job, runnel_job_piece **piece);
runnel_status runnel_job_add_cavity(runnel_job_piece *piece, runnel_job_cavity **cavity);
runnel_status runnel_job_colour_named(runnel_job *job, const char *name,
                                      runnel_job_colour **colour);

/**
 * Takes a row of the resins, or the default one for NULL, into an initialised job. The job's
 * earlier resin is freed.
 *
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN with the nearest name told; RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_job_set_resin(runnel_job *job, const char *name, const runnel_tables *tables,
                                   runnel_problems *problems, const runnel_place *place);

/**
 * A cutter by the name of its row or written out (runnel_cutter_parse); a row goes first.
 *
 * @return RUNNEL_OK; RUNNEL_E_UNKNOWN with the nearest name told; or as runnel_cutter_parse
 */
runnel_status runnel_job_cutter(const char *text, const runnel_tables *tables,
                                runnel_problems *problems, const runnel_place *place,
                                runnel_cutter *cutter);

/**
 * A measured cavity: a volume ("18 ml"), or the mass of the water at room temperature that filled
 * it ("18 g"), divided by RUNNEL_WATER_G_PER_ML.
 *
 * @param volume_mm3 the volume
 * @return as runnel_quantity_parse
 */
runnel_status runnel_measured_parse(const char *text, runnel_problems *problems,
                                    const runnel_place *place, double *volume_mm3);

/** Density of water at 20 degC and 101.325 kPa: 998.207 kg/m3 (Tanaka et al., Metrologia 38 (2001)
 * 301, the table recommended by CIPM; rounded to 1e-6). */
#define RUNNEL_WATER_G_PER_ML 0.998207

/**
 * Checks a whole job: the range of each value; a source for each cavity, with the cutter, depth and
 * heights that go with it; names that are unique; woods that are in the tables; a ratio with its
 * basis. All problems are told at once, at the place of the piece or cavity; a job without a file
 * is told as "command line" with fields such as "--cap-height".
 *
 * Then it sets each cavity's rule and depth, and fills in what is missing: the default resin, the
 * names "piece 1", "cavity 2" ..., the colour "clear" (without tint unless the job says so).
 *
 * @return RUNNEL_OK, or the worst problem's status with the job left as it was
 */
runnel_status runnel_job_check(runnel_job *job, const runnel_tables *tables,
                               runnel_problems *problems);

/* Defaults; each is shown by the command when it was used. */
#define RUNNEL_DEFAULT_RESIN           "table-top 2:1"
#define RUNNEL_DEFAULT_SCALE_STEP_G    0.1
#define RUNNEL_DEFAULT_SHOP_DEGC       20.0
#define RUNNEL_DEFAULT_CROWN_MM        0.4
#define RUNNEL_DEFAULT_MARGIN_MM       1.0
#define RUNNEL_DEFAULT_RESERVE         0.10
#define RUNNEL_DEFAULT_TOP_UP          0.10
#define RUNNEL_DEFAULT_CUP_DIAMETER_MM 70.0
#define RUNNEL_DEFAULT_CUP_DRAIN_S     60.0
#define RUNNEL_DEFAULT_USABLE_SHARE    0.6
#define RUNNEL_DEFAULT_BRIDGE_MM       2.0 /**< common practice */
#define RUNNEL_DEFAULT_FLOOR_MM        5.0
#define RUNNEL_DEFAULT_FLATTEN_MM      0.001
#define RUNNEL_DEFAULT_COLOUR          "clear"
#define RUNNEL_DEFAULT_OIL             "mineral oil"
#define RUNNEL_DEFAULT_USE             RUNNEL_USE_WEEKLY
#define RUNNEL_DEFAULT_HOURS           "Mon-Fri 8:00-17:00"
/** 80 to 320 without leaving one out is common practice, for oil up to 240. */
#define RUNNEL_DEFAULT_GRITS "80, 120, 150, 180, 240"
/** Share of oil and wax that ends in brush, rag and tin: common practice. */
#define RUNNEL_DEFAULT_OIL_WASTE 0.10
/** Of one pass in resin and wood: 0.3 to 1 mm is common practice. */
#define RUNNEL_DEFAULT_PASS_MM 0.5
/** Wood that sanding to the last grit takes off: common practice. */
#define RUNNEL_DEFAULT_TAKE_OFF_MM 0.2
/** A stroke that is no wider is hard to see and chips: common practice. */
#define RUNNEL_DEFAULT_THIN_MM 0.5
/** Thin coats of shellac, of a "two pound cut": common practice. */
#define RUNNEL_DEFAULT_CUT_LB_PER_GAL 2.0
#define RUNNEL_DEFAULT_SEALER_COATS   2
/** 400 ft2/US gal, in the middle of the 300 to 500 that cans of shellac say: from memory. */
#define RUNNEL_DEFAULT_SHELLAC_M2_PER_L (400 * RUNNEL_M2_PER_L_OF_FT2_PER_GAL)

#ifdef __cplusplus
}
#endif
#endif
