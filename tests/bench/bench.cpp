/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Times the distance profile beside other routes to the same volume, on the same lettering.
 *
 * Each figure is the best of several runs, as noise only ever adds. Nothing here passes or fails:
 * the table is to be read.
 *
 *   profile   runnel_profile_inside, from united rings to the finished profile
 *   again     runnel_cavity_compute on a shape whose profile exists, another angle each time
 *   insets    64 insets by GEOS (GEOSBuffer_r), whose areas summed give the volume of the V cut
 *   border    runnel_profile_trace on that profile, the inset by 0.4 of the widest place, alone and
 *             grown again by half of it
 *   offset    the same regions by runnel_contours_offset
 *   diagram   construction of the segment Voronoi diagram by Boost.Polygon; its evaluation would
 *             still have to follow
 */
#include "cure.h"
#include "patches.h"
#include "runnel/cavity.h"
#include "runnel/lettering.h"
#include "runnel/profile.h"
extern "C" {
#include "shape/trace.h"
}
#include "start.h"

#include <boost/polygon/point_data.hpp>
#include <boost/polygon/segment_data.hpp>
#include <boost/polygon/voronoi.hpp>
#include <geos_c.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>
#include <vector>

namespace {

const double half_angle_rad = 3.14159265358979323846 / 6;
const int inset_count = 64;
/* Where a run of 64 insets would take minutes, only fewer are timed and counted up. */
const size_t most_for_all_insets = 12000;

struct letters {
    const char *name;
    int lines;
    double cap_height_mm;
    double flatten_mm;
};

/* From 600 to 100,000 segments in two ways: more letters, and finer chords for the same letters. */
const letters sizes[] = {
    {"one line", 1, 12, 0.03},       {"6 lines", 6, 12, 0.03},
    {"24 lines", 24, 12, 0.03},      {"105 lines", 105, 12, 0.03},
    {"one line, fine", 1, 12, 1e-4}, {"24 lines, fine", 24, 12, 1.5e-3},
};

const char *const words[] = {
    "Quiet please",     "Bread, Milk & Honey",   "Under the old oak",
    "Apple Cider 1897", "Good morning, harbour", "Mind the step",
};

[[noreturn]] void stop(const char *what) {
    std::fprintf(stderr, "bench: %s\n", what);
    std::exit(EXIT_FAILURE);
}

void must(runnel_status status, const char *what) {
    if (status) {
        std::fprintf(stderr, "bench: %s: %s\n", what, runnel_status_text(status));
        std::exit(EXIT_FAILURE);
    }
}

/* Best of several runs, ms. Runs on until a second has gone by, at least twice, at most 50 times;
 * a first run of more than five seconds stands alone. */
double best_ms(const std::function<void()> &run) {
    using watch = std::chrono::steady_clock;
    double best = INFINITY, total = 0;
    for (int i = 0; i < 50 && (i < 2 || total < 1000); i++) {
        auto start = watch::now();
        run();
        double ms = std::chrono::duration<double, std::milli>(watch::now() - start).count();
        best = std::min(best, ms);
        total += ms;
        if (ms > 5000)
            break;
    }
    return best;
}

void set_letters(const letters &size, runnel_contours *region) {
    std::string text;
    for (int i = 0; i < size.lines; i++)
        text += std::string(i ? "\n" : "") + words[static_cast<size_t>(i) % std::size(words)];
    runnel_text wanted = {};
    wanted.text = text.c_str();
    wanted.font = "/usr/share/fonts/opentype/ebgaramond/EBGaramond12-Regular.otf";
    wanted.cap_height_mm = size.cap_height_mm;
    wanted.flatten_mm = size.flatten_mm;
    runnel_lettering set = {};
    must(runnel_lettering_set(&wanted, nullptr, nullptr, &set), "the text cannot be set");
    must(runnel_outline_union(&set.contours, region), "the outlines cannot be united");
    runnel_lettering_clear(&set);
}

/* ---- 64 insets by GEOS ------------------------------------------------------------------------
 */

GEOSGeometry *polygons_of(GEOSContextHandle_t geos, const runnel_contours &region) {
    std::vector<GEOSGeometry *> lines;
    for (size_t i = 0; i < region.count; i++) {
        const runnel_contour &c = region.items[i];
        GEOSCoordSequence *points =
            GEOSCoordSeq_create_r(geos, static_cast<unsigned>(c.count + 1), 2);
        for (size_t k = 0; k <= c.count; k++) {
            const runnel_point &p = region.points[c.first + k % c.count];
            GEOSCoordSeq_setXY_r(geos, points, static_cast<unsigned>(k), p.x_mm, p.y_mm);
        }
        lines.push_back(GEOSGeom_createLineString_r(geos, points));
    }
    GEOSGeometry *all = GEOSGeom_createCollection_r(geos, GEOS_MULTILINESTRING, lines.data(),
                                                    static_cast<unsigned>(lines.size()));
    GEOSGeometry *area = GEOSBuildArea_r(geos, all);
    GEOSGeom_destroy_r(geos, all);
    if (!area)
        stop("GEOS makes no polygons");
    return area;
}

/* Volume under the walls by the midpoint rule over `inset_count` levels; every `step`-th only. */
double inset_volume(GEOSContextHandle_t geos, const GEOSGeometry *area, double widest, int step) {
    double sum = 0, slice = widest / inset_count;
    for (int i = step / 2; i < inset_count; i += step) {
        GEOSGeometry *inset = GEOSBuffer_r(geos, area, -(i + 0.5) * slice, 8);
        double mm2 = 0;
        if (!inset || !GEOSArea_r(geos, inset, &mm2))
            stop("GEOS makes no inset");
        sum += mm2 * step;
        GEOSGeom_destroy_r(geos, inset);
    }
    return sum * slice / std::tan(half_angle_rad);
}

/* ---- Segment Voronoi diagram by Boost.Polygon -------------------------------------------------
 */

using int_point = boost::polygon::point_data<std::int32_t>;
using int_segment = boost::polygon::segment_data<std::int32_t>;

std::vector<int_segment> integer_segments(const runnel_contours &region) {
    runnel_box box = runnel_contours_box(&region);
    double extent = std::max(box.max_x_mm - box.min_x_mm, box.max_y_mm - box.min_y_mm);
    double scale = 2e9 / extent;
    auto rounded = [&](const runnel_point &p) {
        return int_point(
            static_cast<std::int32_t>(std::lround((p.x_mm - box.min_x_mm) * scale) - 1000000000),
            static_cast<std::int32_t>(std::lround((p.y_mm - box.min_y_mm) * scale) - 1000000000));
    };
    std::vector<int_segment> segments;
    for (size_t i = 0; i < region.count; i++) {
        const runnel_contour &c = region.items[i];
        for (size_t k = 0; k < c.count; k++) {
            int_point a = rounded(region.points[c.first + k]);
            int_point b = rounded(region.points[c.first + (k + 1) % c.count]);
            if (a != b)
                segments.emplace_back(a, b);
        }
    }
    return segments;
}

double diagram_ms(const runnel_contours &region) {
    std::vector<int_segment> segments = integer_segments(region);
    return best_ms([&] {
        boost::polygon::voronoi_diagram<double> diagram;
        boost::polygon::construct_voronoi(segments.begin(), segments.end(), &diagram);
        if (diagram.num_cells() == 0)
            stop("Boost makes no diagram");
    });
}

/* ---- Borders of a section ---------------------------------------------------------------------
 */

void print_borders(const letters &size) {
    runnel_contours region = {}, traced = {}, offset = {};
    runnel_profile *profile = nullptr;
    set_letters(size, &region);
    must(runnel_profile_inside(&region, &profile), "no profile");
    double in = 0.4 * runnel_profile_widest(profile, nullptr);
    std::printf("%-18s %7zu", size.name, runnel_profile_segments(profile));
    for (double out : {0.0, 0.5 * in}) {
        double trace = best_ms(
            [&] { must(runnel_profile_trace(profile, in, out, 6e-4 * in, &traced), "no border"); });
        double buffer = best_ms([&] {
            must(runnel_contours_offset(&region, false, -in, &offset), "no inset");
            if (out > 0)
                must(runnel_contours_offset(&offset, false, out, &offset), "no offset");
        });
        std::printf(" %9.4f %7zu %10.3f %7zu %6.1f %9.1e", trace, traced.point_count, buffer,
                    offset.point_count, buffer / trace,
                    runnel_contours_area(&offset) / runnel_contours_area(&traced) - 1);
    }
    std::printf("\n");
    std::fflush(stdout);
    runnel_profile_free(profile);
    runnel_contours_clear(&region);
    runnel_contours_clear(&traced);
    runnel_contours_clear(&offset);
}

void borders() {
    std::printf(
        "\nBorder of a section, alone and grown again: traced on the profile, and by GEOS; x "
        "says how many times as long the latter takes.\n\n%-18s %7s",
        "lettering", "segm.");
    for (int i = 0; i < 2; i++)
        std::printf(" %9s %7s %10s %7s %6s %9s", "border", "points", "offset", "points", "x",
                    "area gap");
    std::printf("\n");
    for (const letters &size : sizes)
        print_borders(size);
}

/* ---- The table --------------------------------------------------------------------------------
 */

struct figures {
    size_t segments, pieces;
    double mismatch;
    double profile_ms, again_ms, depth_ms, insets_ms, diagram_ms;
    double inset_gap; /* relative gap of the stacked insets' volume */
};

double profile_ms(const runnel_contours &region, figures *f) {
    return best_ms([&] {
        runnel_profile *profile = nullptr;
        must(runnel_profile_inside(&region, &profile), "no profile");
        f->segments = runnel_profile_segments(profile);
        f->pieces = runnel_profile_pieces(profile);
        f->mismatch = runnel_profile_mismatch(profile);
        runnel_profile_free(profile);
    });
}

/* Volume at 60 degrees, and the times of computing it anew with other angles and depth limits. */
double cavity_volume(const runnel_contours &region, figures *f, double *widest) {
    runnel_shape *shape = nullptr;
    runnel_cut cut = {};
    cut.cutter.kind = RUNNEL_CUTTER_V;
    cut.cutter.angle_deg = 60;
    runnel_cavity cavity = {};
    must(runnel_shape_outline(&region, NULL, &shape), "no shape");
    must(runnel_cavity_compute(shape, &cut, &cavity), "no cavity");
    double volume = cavity.volume_mm3;
    *widest = cavity.deepest_mm * std::tan(half_angle_rad);
    f->again_ms = best_ms([&] {
        cut.cutter.angle_deg = cut.cutter.angle_deg < 120 ? cut.cutter.angle_deg + 7 : 30;
        must(runnel_cavity_compute(shape, &cut, &cavity), "no cavity at another angle");
    });
    cut.cutter.angle_deg = 60;
    f->depth_ms = best_ms([&] {
        cut.depth_mm = cut.depth_mm < 2 ? cut.depth_mm + 0.13 : 0.5;
        must(runnel_cavity_compute(shape, &cut, &cavity), "no cavity with a depth limit");
    });
    runnel_shape_free(shape);
    return volume;
}

figures measure(GEOSContextHandle_t geos, const letters &size) {
    figures f = {};
    runnel_contours region;
    runnel_contours_init(&region);
    set_letters(size, &region);
    f.profile_ms = profile_ms(region, &f);
    double widest = 0, volume = cavity_volume(region, &f, &widest);
    int step = f.segments > most_for_all_insets ? 16 : 1;
    GEOSGeometry *area = polygons_of(geos, region);
    double stacked = 0;
    f.insets_ms = step * best_ms([&] { stacked = inset_volume(geos, area, widest, step); });
    f.inset_gap = step == 1 ? stacked / volume - 1 : NAN;
    GEOSGeom_destroy_r(geos, area);
    f.diagram_ms = diagram_ms(region);
    runnel_contours_clear(&region);
    return f;
}

void print_row(const letters &size, const figures &f, double first_us) {
    double us = f.profile_ms * 1000 / static_cast<double>(f.segments);
    std::printf("%-18s %7zu %9.3f %7.3f %6.2f %9.4f %6.0f %9.4f %6.0f %10.2f %6.1f %9.2f %6.2f "
                "%9.1e %9.1e\n",
                size.name, f.segments, f.profile_ms, us, us / first_us, f.again_ms,
                f.profile_ms / f.again_ms, f.depth_ms, f.profile_ms / f.depth_ms, f.insets_ms,
                f.insets_ms / f.profile_ms, f.diagram_ms, f.diagram_ms / f.profile_ms, f.inset_gap,
                f.mismatch);
    std::fflush(stdout);
}

} // namespace

int main(int count, char **words) {
    if (count != 2)
        stop("the path of the command is to be named");
    GEOSContextHandle_t geos = GEOS_init_r();
    std::printf("Times in ms, best of several runs; 'x' columns say how many times the profile's "
                "time.\nA row with more than %zu segments has %d insets timed and counted up.\n\n",
                most_for_all_insets, inset_count / 16);
    std::printf("%-18s %7s %9s %7s %6s %9s %6s %9s %6s %10s %6s %9s %6s %9s %9s\n", "lettering",
                "segm.", "profile", "us/seg", "growth", "angle", "1/x", "limit", "1/x", "insets",
                "x", "diagram", "x", "inset gap", "mismatch");
    double first_us = 0;
    for (const letters &size : sizes) {
        figures f = measure(geos, size);
        if (first_us == 0)
            first_us = f.profile_ms * 1000 / static_cast<double>(f.segments);
        print_row(size, f, first_us);
    }
    GEOS_finish_r(geos);
    borders();
    runnel_bench_patches();
    runnel_bench_cure();
    runnel_bench_start(words[1]);
    return EXIT_SUCCESS;
}
