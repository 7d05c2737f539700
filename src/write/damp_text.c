/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/utf8.h"
#include "runnel/write_finish.h"
#include "write/finish_lines.h"

#include <math.h>

static void add_moisture(runnel_flow *flow, const char *before, double percent) {
    runnel_flow_add(flow, before);
    runnel_flow_number(flow, percent, 1, "%");
}

static void add_air(runnel_flow *flow, const runnel_damping_air *air) {
    runnel_bench_plain(flow, air->degc, RUNNEL_DEGC);
    runnel_flow_add(flow, ", ");
    runnel_bench_plain(flow, 100 * air->humidity, "% humidity: ");
    add_moisture(flow, "wood comes to ", air->moisture_percent);
}

static void write_basis(const runnel_job *job, const runnel_damping *damping, FILE *out) {
    runnel_flow flow;
    runnel_layout_paragraph(out, 0, "Worked out with");
    runnel_finish_basis(&flow, out, "shop");
    if (isnan(damping->shop.humidity)) {
        runnel_bench_plain(&flow, damping->shop.degc, RUNNEL_DEGC);
        runnel_flow_add(&flow, ", its humidity not given");
    } else {
        add_air(&flow, &damping->shop);
        if (!isnan(damping->dew_degc)) {
            runnel_flow_add(&flow, ", dew at ");
            runnel_flow_number(&flow, damping->dew_degc, 1, RUNNEL_DEGC);
        }
    }
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "wood");
    add_moisture(&flow, "", damping->from_percent);
    runnel_flow_add(&flow, damping->is_measured ? ", as measured" : ", as the shop makes it");
    runnel_flow_end(&flow);
    runnel_finish_basis(&flow, out, "destination");
    if (damping->destination_is_told) {
        add_air(&flow, &damping->destination);
    } else {
        add_moisture(&flow, "its air not given, so wood is taken to come to ", damping->to_percent);
        runnel_flow_add(&flow, runnel_use_is_outdoors(job->upkeep.use) ? " outdoors" : " indoors");
    }
    runnel_flow_end(&flow);
}

static void write_change(const char *label, double change_mm, FILE *out) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, label);
    runnel_flow_tab(&flow, 20);
    runnel_flow_add(&flow, change_mm < 0 ? "shrinks by " : "swells by ");
    runnel_flow_number(&flow, fabs(change_mm), 1, "mm");
    runnel_flow_end(&flow);
}

static void write_band(const runnel_damping_band *band, FILE *out) {
    runnel_flow flow;
    runnel_flow_begin(&flow, out, 4);
    runnel_flow_add(&flow, band->cavity);
    runnel_flow_add(&flow, ": ");
    runnel_flow_number(&flow, band->across_mm, 0, "mm across the grain");
    if (band->is_known) {
        runnel_flow_add(&flow, band->band.change_mm < 0 ? "; the wood along it shrinks by "
                                                        : "; the wood along it swells by ");
        runnel_flow_number(&flow, fabs(band->band.change_mm), 2, "mm, the resin does not");
    }
    runnel_flow_add(&flow, band->across_mm > RUNNEL_DAMP_BAND_MM ? "; LONG" : "");
    runnel_flow_end(&flow);
}

static void write_part(const runnel_damping_part *part, FILE *out) {
    runnel_flow flow;
    fputc('\n', out);
    runnel_flow_begin(&flow, out, 0);
    runnel_flow_add(&flow, part->piece);
    runnel_flow_add(&flow, part->wood ? ", " : "");
    runnel_flow_add(&flow, part->wood ? part->wood->name : "");
    if (!isnan(part->across_mm)) {
        runnel_flow_add(&flow, ", ");
        runnel_bench_plain(&flow, part->across_mm, "mm across the grain");
    }
    runnel_flow_end(&flow);
    if (isnan(part->flat_change_mm))
        runnel_layout_paragraph(out, 4,
                                "how it moves is not known: its wood and its size are needed");
    else
        write_change("flat-sawn", part->flat_change_mm, out);
    if (!isnan(part->quarter_change_mm))
        write_change("quarter-sawn", part->quarter_change_mm, out);
    for (size_t i = 0; i < part->band_count; i++)
        write_band(&part->bands[i], out);
}

runnel_status runnel_write_damp_text(const runnel_job *job, const runnel_damping *damping,
                                     FILE *out) {
    runnel_finish_head(out, "Damp", job, &damping->plan);
    write_basis(job, damping, out);
    for (size_t i = 0; i < damping->part_count; i++)
        write_part(&damping->parts[i], out);
    return runnel_layout_close(out);
}
