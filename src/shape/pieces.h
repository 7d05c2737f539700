/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The pieces of a distance profile: intervals of the boundary with one formula for m.
 *
 * An element is a segment (parameter s, mm along it) or the fan of a reflex corner (parameter
 * theta, rad, clockwise from the normal of the segment before it). Over a piece
 *
 *   RUNNEL_PIECE_LINE         segment, stopped by a segment:  m linear from m0 to m1
 *   RUNNEL_PIECE_POINT        segment, stopped by a corner:   m = (x^2 + h^2)/(2h), x along the
 * segment RUNNEL_PIECE_FAN_LINE     fan, stopped by a segment:      the same parabola, x along the
 * other segment, dtheta = dx/m RUNNEL_PIECE_FAN_POINT    fan, stopped by a corner:       m =
 * sqrt(h^2 + x^2), x along the bisector, dtheta = h dx/m^2 RUNNEL_PIECE_CONST, _FAN_CONST m = m0
 * (infinite when nothing stops within reach)
 */
#ifndef RUNNEL_SHAPE_PIECES_H
#define RUNNEL_SHAPE_PIECES_H

#include "runnel/profile.h"
#include "shape/boundary.h"
#include "shape/discs.h"
#include "shape/levels.h"

typedef enum runnel_piece_kind {
    RUNNEL_PIECE_LINE,
    RUNNEL_PIECE_POINT,
    RUNNEL_PIECE_CONST,
    RUNNEL_PIECE_FAN_LINE,
    RUNNEL_PIECE_FAN_POINT,
    RUNNEL_PIECE_FAN_CONST
} runnel_piece_kind;

typedef struct runnel_piece {
    runnel_piece_kind kind;
    uint32_t edge;    /**< the segment, or the corner of the fan */
    runnel_stop stop; /**< what bounds m */
    bool leaf;        /**< runs into a convex corner, where m = 0 */
    double from, to;  /**< s or theta on the element */
    double x0, x1;    /**< as above; for LINE m0 and m1 */
    double h;         /**< as above; LINE: angle between the normals, rad */
    double low, high; /**< least and greatest m */
    double extent;    /**< length or angle; negative for the convex arcs of exact shapes */
    double area;      /**< integral of the weight: int_0^m w dt over the piece */
    double moment;    /**< integral of t: int_0^m t w dt over the piece */
} runnel_piece;

/** A place on the medial axis. */
typedef struct runnel_medial {
    double m_mm;
    runnel_point at;
} runnel_medial;

/** Parts of a curve that need not be closed: (1/2) int (x dy - y dx), int dx, int dy. */
typedef struct runnel_offset {
    double area_mm2, dx_mm, dy_mm;
} runnel_offset;

/** Relative area mismatch above which a profile is refused. */
#define RUNNEL_LARGEST_MISMATCH 1e-7

struct runnel_profile {
    runnel_boundary boundary; /**< empty for exact shapes with arcs */
    runnel_piece *pieces;
    size_t count, capacity;
    runnel_levels levels; /**< of the pieces */
    double reach_mm;      /**< infinite for an inside */
    double area_mm2;      /**< by the pieces, within reach */
    double enclosed_mm2;  /**< by the boundary; negative for an outside */
    bool is_part;         /**< walked among others, whose pieces are not here */
    runnel_offset offset; /**< the offset curve at the reach, as far as it is this profile's */
    double mismatch;      /**< relative; 0 where only the whole that it is part of can tell */
    size_t segments;
    runnel_medial widest, narrowest;
};

/** Share by which a disc may be wider than its place and still fits: far above the rounding of m,
 * far below anything that can be cut. So a stroke as wide as the cutter is cut, whichever way it is
 * turned, and no set of discs ends exactly at a corner of the medial axis. */
#define RUNNEL_FIT_SHARE 2e-12

static inline double runnel_fitting(double radius_mm) {
    return radius_mm * (1 - RUNNEL_FIT_SHARE);
}

static inline bool runnel_piece_is_fan(const runnel_piece *piece) {
    return piece->kind >= RUNNEL_PIECE_FAN_LINE;
}

/** Which side of contours a profile is of. */
typedef enum runnel_domain {
    RUNNEL_DOMAIN_INSIDE,
    RUNNEL_DOMAIN_OUTSIDE,
    RUNNEL_DOMAIN_AROUND_LINES
} runnel_domain;

/**
 * A profile of contours whose corners are moved by up to `hair_mm`, each by a share that follows
 * from its place. It serves where the walk along the contours themselves loses an area. What the
 * border sweeps is part of the mismatch, and so of the bound of every volume.
 */
runnel_status runnel_profile_beside(const runnel_contours *contours, runnel_domain domain,
                                    double reach_mm, double hair_mm, runnel_profile **profile);

/** Fills in low, high, extent, area and moment from the rest; `extent` of constants is given. */
void runnel_piece_finish(runnel_piece *piece);

/**
 * Profile around some contours among others: the pieces of the first `own_count` alone, stopped by
 * all of them. The area identity is not checked: the offset curve runs on along the others.
 *
 * @param contours rings of a region, or lines, as for runnel_profile_outside and _path
 * @return as those; RUNNEL_E_IDENTITY only when nothing is foreign
 */
runnel_status runnel_profile_among(const runnel_contours *contours, size_t own_count, bool is_path,
                                   double reach_mm, runnel_profile **profile);

/** What a profile takes, about. */
size_t runnel_profile_bytes(const runnel_profile *profile);

/** Builds the levels of a profile whose pieces are complete. */
runnel_status runnel_profile_finish(runnel_profile *profile);

/** The part of a piece between two values of its own x (m for LINE is handled inside). */
runnel_piece runnel_piece_part(const runnel_piece *piece, double x0, double x1);

/** m at x (LINE: x runs from 0 to 1 over the piece). */
double runnel_piece_m(const runnel_piece *piece, double x);

/** Pieces above a level: up to two parts with m >= t; below: up to two parts with m <= t. Constants
 * and LINE give at most one. @return number of parts */
size_t runnel_piece_above(const runnel_piece *piece, double t_mm, runnel_piece parts[2]);
size_t runnel_piece_below(const runnel_piece *piece, double t_mm, runnel_piece parts[2]);

/** Centre of the disc at the parameter (s or theta) with radius m. */
runnel_point runnel_piece_centre(const runnel_profile *profile, const runnel_piece *piece,
                                 double parameter, double m_mm);

/** s or theta at x of a piece (LINE: x from 0 to 1). */
double runnel_piece_parameter(const runnel_profile *profile, const runnel_piece *piece, double x);

#endif
