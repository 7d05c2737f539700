/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Oil: the area of a board that takes it, face grain and end grain apart, and how much of it goes
 * on in how many coats.
 *
 * An uptake is a volume per area, in mm: 1 ml/m2 is 0.001 mm.
 */
#ifndef RUNNEL_OIL_H
#define RUNNEL_OIL_H

#include "runnel/cavity.h"
#include "runnel/status.h"

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- The board ----------------------------------------------------------------------------- */

/** Faces of a board that lies on its underside, its length from left to right. */
typedef enum runnel_face {
    RUNNEL_FACE_TOP,    /**< length x width */
    RUNNEL_FACE_BOTTOM, /**< length x width */
    RUNNEL_FACE_FRONT,  /**< length x thickness */
    RUNNEL_FACE_BACK,   /**< length x thickness */
    RUNNEL_FACE_LEFT,   /**< width x thickness */
    RUNNEL_FACE_RIGHT,  /**< width x thickness */
    RUNNEL_FACE_COUNT
} runnel_face;

/** A face as a bit, for sets of faces. */
#define RUNNEL_FACE_BIT(face) (1u << (face))
#define RUNNEL_FACES_ALL      ((1u << RUNNEL_FACE_COUNT) - 1)

/** Edges of a board. */
typedef enum runnel_board_edge {
    RUNNEL_EDGE_TOP_FRONT,
    RUNNEL_EDGE_TOP_BACK,
    RUNNEL_EDGE_TOP_LEFT,
    RUNNEL_EDGE_TOP_RIGHT,
    RUNNEL_EDGE_BOTTOM_FRONT,
    RUNNEL_EDGE_BOTTOM_BACK,
    RUNNEL_EDGE_BOTTOM_LEFT,
    RUNNEL_EDGE_BOTTOM_RIGHT,
    RUNNEL_EDGE_FRONT_LEFT,
    RUNNEL_EDGE_FRONT_RIGHT,
    RUNNEL_EDGE_BACK_LEFT,
    RUNNEL_EDGE_BACK_RIGHT,
    RUNNEL_EDGE_COUNT
} runnel_board_edge;

/** An edge as a bit, for sets of edges. */
#define RUNNEL_EDGE_BIT(edge) (1u << (edge))
#define RUNNEL_EDGES_TOP      0x00Fu
#define RUNNEL_EDGES_BOTTOM   0x0F0u
#define RUNNEL_EDGES_UPRIGHT  0xF00u
#define RUNNEL_EDGES_ALL      0xFFFu

/** Which way the grain runs: the faces across it are end grain. */
typedef enum runnel_grain {
    RUNNEL_GRAIN_LENGTH,   /**< left and right are end grain, as in most boards */
    RUNNEL_GRAIN_WIDTH,    /**< front and back */
    RUNNEL_GRAIN_THICKNESS /**< top and bottom: an end grain board */
} runnel_grain;

/** What a recess in a face is. */
typedef enum runnel_recess_kind {
    RUNNEL_RECESS_RESIN, /**< filled: its footprint takes no oil */
    RUNNEL_RECESS_JUICE, /**< a groove for juice: its wall takes oil, and it holds something */
    RUNNEL_RECESS_PLAIN  /**< a finger hold, an open carving: its wall takes oil */
} runnel_recess_kind;

/** Recesses in a face, as runnel_cavity_compute tells them. Their walls count as grain of the kind
 * of their face (a convention: along a groove the two change). */
typedef struct runnel_recess {
    runnel_recess_kind kind;
    runnel_face face;
    size_t count; /**< how many of them, 1 or more */
    double footprint_mm2, wall_mm2, volume_mm3;
} runnel_recess;

/** A board to be oiled. */
typedef struct runnel_oil_board {
    double length_mm, width_mm, thickness_mm; /**< > 0, as before the chamfers */
    runnel_grain grain;
    unsigned faces;    /**< set of RUNNEL_FACE_BIT; 0 = all */
    double chamfer_mm; /**< how far the chamfers stand back from an edge on either face, at 45
                          degrees; at most half of each size they take from */
    unsigned edges;    /**< set of RUNNEL_EDGE_BIT that have chamfers */
    const runnel_recess *recesses;
    size_t recess_count;
} runnel_oil_board;

/** Area that takes oil, and of what. */
typedef struct runnel_oil_area {
    double face_mm2;              /**< face grain, chamfers and walls of recesses with it */
    double end_mm2;               /**< end grain, with what is cut slantwise into it */
    double total_mm2;             /**< both */
    double chamfer_mm2, wall_mm2; /**< that part of it */
    double resin_mm2;             /**< footprint of resin that was taken out */
    double juice_mm3;             /**< that the juice grooves hold, brim-full */
} runnel_oil_area;

/**
 * Area of a board that takes oil. Exact: where chamfers meet in a corner each loses what the others
 * cut off it. A chamfer takes oil when one of its two faces does, and counts as end grain when one
 * of them is (a convention).
 *
 * @return RUNNEL_OK; RUNNEL_E_RANGE for a size, face, edge or count outside its range;
 *         RUNNEL_E_CONFLICT when the recesses take more of a face than it has
 */
runnel_status runnel_oil_area_of(const runnel_oil_board *board, runnel_oil_area *area);

/**
 * A groove along a rectangle with rounded corners, cut by a round nose.
 *
 * @param length_mm,width_mm of the centre line, > 0
 * @param corner_mm          radius of its corners, 0 to half the shorter side
 * @param nose_mm            radius of the round nose, > 0
 * @param depth_mm           may be more than that radius
 * @param figures            footprint, wall, volume and the rest
 * @return as runnel_cavity_compute
 */
runnel_status runnel_juice_groove(double length_mm, double width_mm, double corner_mm,
                                  double nose_mm, double depth_mm, runnel_cavity *figures);

/**
 * A straight slot, such as a finger hold, cut by a round nose.
 *
 * @param length_mm from end to end at the face, more than the width that the cutter leaves there
 * @return as runnel_cavity_compute
 */
runnel_status runnel_slot(double length_mm, double nose_mm, double depth_mm,
                          runnel_cavity *figures);

/* ---- Oils ---------------------------------------------------------------------------------- */

/** An oil: a row of data/oils.csv, or the user's own. NAN is "not known", and for the full cure of
 * an oil that stays wet "never". */
typedef struct runnel_oil {
    char *name; /**< owned, key of the row */
    bool dries; /**< hardens in air; its rags can catch fire by themselves */
    bool nut;   /**< pressed from nuts, or from what is called so */
    double density_g_per_ml;
    double uptake_ml_per_m2;                            /**< of one coat on face grain */
    double uptake_low_ml_per_m2, uptake_high_ml_per_m2; /**< usual or published range */
    double end_grain_factor; /**< uptake of end grain to that of face grain */
    double coats;            /**< usual number, a whole one */
    double soak_s;           /**< before what is left is wiped off */
    double between_s;        /**< from coat to coat */
    double full_cure_s;      /**< after the last coat */
    char *food;              /**< owned: what is to be known for boards that touch food */
    char *source;            /**< owned */
    char *date;              /**< owned, ISO 8601 */
    char *sure;        /**< owned: "published", "computed", "common practice", "from memory" */
    char *uptake_sure; /**< owned: the same, of the uptake; the factor is always a convention */
} runnel_oil;

/** Frees what an oil owns and zeroes it. NULL is allowed. */
void runnel_oil_clear(runnel_oil *oil);
/** Deep copy into an empty oil, which stays empty on failure. @return RUNNEL_OK or
 * RUNNEL_E_NO_MEMORY */
runnel_status runnel_oil_copy(const runnel_oil *from, runnel_oil *to);

/** Cautions of an oil, as a set for runnel_caution_next: the step, and the cases that hold. */
unsigned runnel_oil_step_bit(const runnel_oil *oil);
unsigned runnel_oil_cases(const runnel_oil *oil);

/* ---- Amounts ------------------------------------------------------------------------------- */

/** Uptake of end grain to face grain, where nothing else is known. A convention: 3 to 5 times is
 * common practice, and no published figure was found. */
#define RUNNEL_END_GRAIN_FACTOR 3.0
/** Usual uptake of a thin coat on dense face grain. Common practice, from memory. */
#define RUNNEL_UPTAKE_LOW_MM  0.040
#define RUNNEL_UPTAKE_HIGH_MM 0.080
/** Most coats that are computed. */
#define RUNNEL_OIL_MOST_COATS 100

/** How an oil is put on. */
typedef struct runnel_oiling {
    double uptake_mm;  /**< of the first coat on face grain, > 0 */
    double end_factor; /**< uptake of end grain to that, > 0; 0 = RUNNEL_END_GRAIN_FACTOR */
    double fall;       /**< share by which each coat takes less than the one before, 0 to below 1 */
    double waste;      /**< share that ends in brush and rag, 0 to below 1 */
    size_t coats;      /**< 1 or more */
} runnel_oiling;

/** Amounts of oil, waste included unless told otherwise, mm3. */
typedef struct runnel_oil_need {
    double first_mm3, last_mm3; /**< the first and the last coat */
    double all_mm3;             /**< all coats */
    double face_mm3, end_mm3;   /**< taken by the wood in all coats, without the waste */
    double waste_mm3;           /**< of all coats */
} runnel_oil_need;

/** Oil for an area. @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_oil_compute(const runnel_oiling *oiling, double face_mm2, double end_mm2,
                                 runnel_oil_need *need);

/** Oil for one coat, waste included; the first one is 0. @return RUNNEL_OK; RUNNEL_E_RANGE */
runnel_status runnel_oil_coat(const runnel_oiling *oiling, double face_mm2, double end_mm2,
                              size_t coat, double *coat_mm3);

/** When the coats are done, counted from the first one. */
typedef struct runnel_oil_times {
    double last_coat_s; /**< last coat laid on */
    double wiped_s;     /**< and wiped off */
    double cured_s; /**< ready for food, as far as the oil goes; of an oil that stays wet when it
                       is wiped off; NAN when the full cure of one that dries is not known */
} runnel_oil_times;

/** Times of so many coats. @return RUNNEL_OK; RUNNEL_E_MISSING when the oil's soak or its wait
 * between coats is not known; RUNNEL_E_RANGE */
runnel_status runnel_oil_times_of(const runnel_oil *oil, size_t coats, runnel_oil_times *times);

#ifdef __cplusplus
}
#endif
#endif
