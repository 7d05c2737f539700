/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The steps behind runnel_plan_make.
 */
#ifndef RUNNEL_PLAN_MAKE_H
#define RUNNEL_PLAN_MAKE_H

#include "runnel/plan.h"

/** Soak of bare and sealed carved walls where no wood is named, ml/m2: a middling wood of
 * data/woods.csv. From memory of the trade. */
#define RUNNEL_SOAK_BARE_ML_PER_M2   60.0
#define RUNNEL_SOAK_SEALED_ML_PER_M2 8.0

/** A cavity whose place on its piece is known. */
typedef struct runnel_placed {
    size_t cavity, piece;     /**< of plan and job */
    runnel_contours contours; /**< outline, or path; from the piece's lower left */
    bool is_path;
    double beside_mm; /**< how far the cavity reaches beside a path */
    runnel_box box;   /**< of the cavity at the face */
} runnel_placed;

/** What a plan is made from and into. */
typedef struct runnel_making {
    const runnel_job *job;
    const runnel_tables *tables;
    const runnel_letters *letters;
    runnel_problems *problems;
    runnel_plan *plan;
    bool impossible; /**< some warning says that the job cannot be done as asked */
    runnel_placed *placed;
    size_t placed_count, placed_capacity;
} runnel_making;

/** A cavity's shape, and the text it was set from. Zeroed is empty. */
typedef struct runnel_source_shape {
    runnel_shape *shape; /**< NULL for a measured cavity */
    runnel_lettering lettering;
} runnel_source_shape;

/** Makes the shape of a cavity; what the letter function finds wrong is told with its place. */
runnel_status runnel_source_shape_make(const runnel_making *making, const runnel_job_cavity *cavity,
                                       runnel_source_shape *source);
void runnel_source_shape_clear(runnel_source_shape *source);

/** Adds the outline or path of a cavity that is not measured, as the shape has it, but with curves
 * as chords. */
runnel_status runnel_source_contours(const runnel_making *making, const runnel_job_cavity *cavity,
                                     const runnel_source_shape *source, runnel_contours *contours);

/** Contours of a form, curves as chords within a tolerance. @return RUNNEL_E_SHAPE for none */
runnel_status runnel_form_contours(const runnel_form *form, double tolerance,
                                   runnel_contours *contours);

/** Keeps the outline of the cavity that was planned last, when its place is told. */
runnel_status runnel_place_cavity(runnel_making *making, size_t piece,
                                  const runnel_job_cavity *cavity,
                                  const runnel_source_shape *source);
/** Looks at what is kept: bridges between cavities, and the edges of pieces. */
runnel_status runnel_places_check(runnel_making *making);
/** Frees what is kept. */
void runnel_places_clear(runnel_making *making);

/** Soak of a piece's carved walls, mm3 per mm2; `assumed` when neither job nor table tells. */
double runnel_soak_of(const runnel_making *making, const runnel_job_piece *piece, bool *assumed);

/** Width and height of a shape's cavity at the face, mm. */
void runnel_face_size(const runnel_shape *shape, const runnel_cut *cut, double *width_mm,
                      double *height_mm);

/** What of a cavity a problem is about. */
typedef enum runnel_aspect {
    RUNNEL_ASPECT_SHAPE,
    RUNNEL_ASPECT_FONT,
    RUNNEL_ASPECT_AXES
} runnel_aspect;

/** Room for the field of a place. */
#define RUNNEL_PLACE_SIZE 200

/** Where that is told, for problems: the field is written to `path`, RUNNEL_PLACE_SIZE bytes. */
runnel_place runnel_place_of(const runnel_job *job, const runnel_job_cavity *cavity,
                             runnel_aspect aspect, char *path);

/** Height of the crown as layers count it, mm: at most half a layer where no footprint is told, as
 * nothing is poured that could make a layer of its own. */
double runnel_crown_of(const runnel_job *job, const runnel_plan_cavity *planned);

/** How far resin over the deepest place may sink below the rest as it hardens, mm: what it shrinks
 * after the gel in its last pour. */
double runnel_dip_of(const runnel_job *job, const runnel_plan_cavity *planned);

/** The letter in whose ink, or nearest to it, a point lies; their count when there is none. */
size_t runnel_letter_at(const runnel_lettering *lettering, runnel_point at);

/** Room that runnel_figure needs. */
#define RUNNEL_FIGURE_SIZE 48

/**
 * A number for a text: so many places after the point and no zeros at their end, whatever the
 * locale. Cut when it is longer than any figure of a workshop.
 *
 * @param buffer RUNNEL_FIGURE_SIZE bytes
 */
const char *runnel_figure(double value, int decimals, char *buffer);
/** The same in a buffer that lasts to the end of the block. */
#define FIGURE(value, decimals) runnel_figure((value), (decimals), (char[RUNNEL_FIGURE_SIZE]){0})

/** How far a cavity may go beyond a limit before it is told: less than what shows at two places,
 * and than what a shop can measure. */
#define RUNNEL_FIT_SLACK_MM 0.005

/** The largest tenth of a millimetre up to a length that fits, as cutters and letters are set. */
double runnel_tenth_below(double length_mm);

/** What a text must be made to fit. */
typedef struct runnel_fit {
    double length_mm, width_mm; /**< 0 = any */
    double deepest_mm;          /**< 0 = any */
} runnel_fit;

/**
 * Finds a height at which a text that does not fit would: cap height or text height, whichever the
 * cavity has. Each height is tried by setting and cutting the text anew.
 *
 * @param planned   the cavity as it is
 * @param height_mm a multiple of 0.1 mm; 0 when none is found
 * @return RUNNEL_OK or RUNNEL_E_NO_MEMORY
 */
runnel_status runnel_fitting_height(const runnel_making *making, const runnel_job_cavity *cavity,
                                    const runnel_plan_cavity *planned, const runnel_fit *fit,
                                    double *height_mm);

/** Adds a warning. */
runnel_status runnel_warn(runnel_making *making, const char *code, const char *where,
                          const char *format, ...) RUNNEL_PRINTF(4, 5);

/** Warnings of one cavity. */
runnel_status runnel_warn_cavity(runnel_making *making, const runnel_job_piece *piece,
                                 const runnel_job_cavity *cavity, const runnel_source_shape *source,
                                 const runnel_plan_cavity *planned);

/** Warnings of the resin and the shop. */
runnel_status runnel_warn_job(runnel_making *making);

/** Warnings of one batch. */
runnel_status runnel_warn_batch(runnel_making *making, const runnel_plan_batch *batch);

/** A copy that owns all it holds. @param to replaced, untouched on failure @return RUNNEL_OK or
 * RUNNEL_E_NO_MEMORY */
runnel_status runnel_plan_copy(const runnel_plan *from, runnel_plan *to);

/** Frees what a batch owns and zeroes it. */
void runnel_plan_batch_clear(runnel_plan_batch *batch);

/** Finds how much a cavity may take. */
runnel_status runnel_band_cavity(const runnel_making *making, const runnel_job_piece *piece,
                                 runnel_plan_cavity *planned);
/** Joins what the cavities of a batch may take, and sets its share of that. */
runnel_status runnel_band_batch(const runnel_making *making, runnel_plan_batch *batch);

/** Resin of one layer (from 1) of one cavity of one piece, with all its terms but the cup loss. The
 * crown goes with the last layer, the soak by the depth. */
runnel_status runnel_poured_into(const runnel_making *making, const runnel_job_piece *piece,
                                 size_t cavity, size_t layer, double allowance_share,
                                 double *volume_mm3);

/** A time of the resin's sheet at the shop's temperature, by its activation energy or the usual one
 * (RUNNEL_CURE_USUAL_KJ_PER_MOL); NAN when it is not known, or too cold. */
runnel_status runnel_shop_time(const runnel_job *job, double stated_s, double *time_s);

/** Parts a cavity into layers when it is deeper than one pour. @param shape NULL for a measured one
 */
runnel_status runnel_layer_cavity(const runnel_making *making, const runnel_job_cavity *cavity,
                                  runnel_shape *shape, runnel_plan_cavity *planned);

/** Weighs a need as one mix in one cup, no smaller than the scale allows. RUNNEL_NOT_POSSIBLE when
 * there is no such mix; the terms are filled in all the same. */
runnel_status runnel_weigh_need(const runnel_making *making, const runnel_need *need, double tint,
                                runnel_terms *terms, runnel_allowed *allowed);

/**
 * Deals a batch out to cups and weighs them; the answer may be that none can be weighed.
 *
 * @param need  of the whole batch
 * @param batch with its terms (no cup loss yet), tint and pot life; to be cleared on failure too
 */
runnel_status runnel_batch_pour(const runnel_making *making, const runnel_need *need,
                                runnel_plan_batch *batch);

/** Makes the batches from the cavities that are there. */
runnel_status runnel_batches_make(runnel_making *making);

#endif
