/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "base/quantity.h"
#include "base/suggest.h"
#include "job/form_reading.h"

#include <math.h>

static runnel_status read_v(const runnel_form_reading *input, runnel_slice text,
                            runnel_cutter *cutter) {
    runnel_slice angle = text, tip;
    runnel_status status = RUNNEL_OK, tip_status = RUNNEL_OK;
    bool has_tip = runnel_form_cut(text, "tip", &angle, &tip);
    if (angle.at == angle.end)
        return runnel_form_refuse(input, RUNNEL_E_SYNTAX, "has no included angle");
    status = runnel_quantity_read(angle, RUNNEL_ANGLE, input->problems, input->place,
                                  &cutter->angle_deg);
    if (has_tip)
        tip_status = runnel_quantity_read(tip, RUNNEL_LENGTH, input->problems, input->place,
                                          &cutter->tip_mm);
    if (!status && (cutter->angle_deg <= 0 || cutter->angle_deg >= 180))
        status = runnel_form_refuse(input, RUNNEL_E_RANGE,
                                    "is out of range: the included angle is above 0 and below 180 "
                                    "deg");
    if (!tip_status && (cutter->tip_mm < 0 || cutter->tip_mm > RUNNEL_FORM_MOST_MM))
        tip_status = runnel_form_refuse(input, RUNNEL_E_RANGE,
                                        "is out of range: the flat at the tip is 0 or more, and "
                                        "less than a kilometre");
    return status ? status : tip_status;
}

static runnel_status refuse_measure(const runnel_form_reading *input, runnel_slice text) {
    static const char *const names[] = {"radius", "diameter"};
    char shown[RUNNEL_SHOWN_SIZE], word[32];
    size_t length = 0;
    while (length + 1 < sizeof word && text.at + length < text.end && text.at[length] != ' ') {
        word[length] = text.at[length];
        length++;
    }
    word[length] = '\0';
    const char *near = runnel_nearest(word, names, 2);
    return runnel_problems_add(input->problems, RUNNEL_E_SYNTAX, input->place,
                               "'%s' needs 'radius' or 'diameter' with a length%s%s%s; write it "
                               "like '%s'",
                               runnel_slice_show(input->whole, shown),
                               near ? " (did you mean '" : "", near ? near : "", near ? "'?)" : "",
                               input->example);
}

static runnel_status read_round(const runnel_form_reading *input, runnel_slice text,
                                runnel_cutter *cutter) {
    double length_mm = 0;
    bool is_diameter = runnel_form_take(&text, "diameter");
    if (!is_diameter && !runnel_form_take(&text, "radius"))
        return refuse_measure(input, text);
    runnel_status status =
        runnel_quantity_read(text, RUNNEL_LENGTH, input->problems, input->place, &length_mm);
    if (status)
        return status;
    if (length_mm < RUNNEL_FORM_LEAST_MM || length_mm > RUNNEL_FORM_MOST_MM)
        return runnel_form_refuse(input, RUNNEL_E_RANGE,
                                  "is out of range: a cutter's size is above 0 and less than a "
                                  "kilometre");
    cutter->radius_mm = is_diameter ? length_mm / 2 : length_mm;
    return RUNNEL_OK;
}

static const struct tool_word {
    const char *words;
    runnel_cutter_kind kind;
    runnel_status (*read)(const runnel_form_reading *input, runnel_slice text,
                          runnel_cutter *cutter);
    const char *example;
} tool_words[] = {
    {"v", RUNNEL_CUTTER_V, read_v, "v 60 deg"},
    {"round nose", RUNNEL_CUTTER_ROUND_NOSE, read_round, "round-nose radius 3 mm"},
    {"flat", RUNNEL_CUTTER_FLAT, read_round, "flat diameter 6 mm"},
};
enum { TOOL_WORDS = sizeof tool_words / sizeof *tool_words };

static const struct tool_word *take_tool(runnel_slice *text) {
    for (size_t i = 0; i < TOOL_WORDS; i++)
        if (runnel_form_take(text, tool_words[i].words))
            return &tool_words[i];
    return NULL;
}

runnel_status runnel_cutter_parse(const char *text, runnel_problems *problems,
                                  const runnel_place *place, runnel_cutter *cutter) {
    runnel_slice rest = runnel_slice_trim(runnel_slice_of(text));
    runnel_form_reading input = {rest, problems, place, "", false};
    const struct tool_word *word = take_tool(&rest);
    if (!word) {
        char shown[RUNNEL_SHOWN_SIZE];
        return runnel_problems_add(problems, RUNNEL_E_UNKNOWN, place,
                                   "'%s' is not a cutter; write it like 'v 60 deg', 'v 60 deg tip "
                                   "0.2 mm', 'round-nose radius 3 mm' or 'flat diameter 6 mm'",
                                   runnel_slice_show(input.whole, shown));
    }
    input.example = word->example;
    runnel_cutter fresh = {.kind = word->kind};
    runnel_status status = word->read(&input, rest, &fresh);
    if (!status)
        *cutter = fresh;
    return status;
}

/* "v 60", "flat 6mm" and "round-nose 1/4in" may be names of rows; a form says more. */
bool runnel_cutter_is_form(const char *text) {
    runnel_slice rest = runnel_slice_trim(runnel_slice_of(text));
    const struct tool_word *word = take_tool(&rest);
    if (!word || rest.at == rest.end)
        return false;
    uint32_t next = runnel_slice_peek(rest, NULL);
    bool digit_next = next >= '0' && next <= '9';
    if (word->kind != RUNNEL_CUTTER_V)
        return !digit_next;
    while (next && ((next >= '0' && next <= '9') || next == '.')) {
        runnel_slice_step(&rest);
        next = runnel_slice_peek(rest, NULL);
    }
    return rest.at < rest.end;
}

static runnel_status refuse_ratio(const runnel_form_reading *input, runnel_number_fault fault) {
    char shown[RUNNEL_SHOWN_SIZE];
    bool is_number = fault && fault != RUNNEL_NUMBER_NONE;
    return runnel_problems_add(input->problems, RUNNEL_E_SYNTAX, input->place,
                               "'%s' %s; write it like '%s'",
                               runnel_slice_show(input->whole, shown),
                               is_number ? runnel_number_fault_text(fault)
                                         : "is not a ratio: two numbers with a colon between, part "
                                           "A first, and what they count",
                               input->example);
}

static runnel_status read_basis(const runnel_form_reading *input, runnel_slice text,
                                runnel_basis *basis) {
    static const struct {
        const char *word;
        runnel_basis basis;
    } bases[] = {{"volume", RUNNEL_BASIS_VOLUME},
                 {"weight", RUNNEL_BASIS_WEIGHT},
                 {"mass", RUNNEL_BASIS_WEIGHT}};
    if (text.at == text.end)
        return runnel_form_refuse(input, RUNNEL_E_UNIT,
                                  "does not say what it counts: the same pair means other amounts "
                                  "by volume than by weight");
    if (runnel_form_take(&text, "by"))
        for (size_t i = 0; i < sizeof bases / sizeof *bases; i++) {
            runnel_slice rest = text;
            if (runnel_form_take(&rest, bases[i].word) && rest.at == rest.end) {
                *basis = bases[i].basis;
                return RUNNEL_OK;
            }
        }
    return runnel_form_refuse(input, RUNNEL_E_UNIT,
                              "does not end in 'by volume', 'by weight' or 'by mass'");
}

runnel_status runnel_ratio_parse(const char *text, runnel_problems *problems,
                                 const runnel_place *place, runnel_ratio *ratio) {
    runnel_slice rest = runnel_slice_trim(runnel_slice_of(text));
    runnel_form_reading input = {rest, problems, place, "2:1 by volume' or '100:44 by weight",
                                 false};
    runnel_amount parts[2];
    for (int i = 0; i < 2; i++) {
        runnel_number_fault fault = runnel_amount_read(&rest, &parts[i]);
        if (fault)
            return refuse_ratio(&input, fault);
        runnel_slice_skip_blanks(&rest);
        uint32_t next = runnel_slice_peek(rest, NULL);
        bool colon = next == ':' || next == 0x2236;
        if (colon != (i == 0))
            return refuse_ratio(&input, RUNNEL_NUMBER_FINE);
        if (colon)
            runnel_slice_step(&rest);
    }
    runnel_ratio fresh = {
        .part_a = runnel_decimal_scaled(&parts[0].upper, 1, 0) / parts[0].lower,
        .part_b = runnel_decimal_scaled(&parts[1].upper, 1, 0) / parts[1].lower,
    };
    runnel_status range = RUNNEL_OK;
    if (!(fresh.part_a > 0 && isfinite(fresh.part_a) && fresh.part_b > 0 && isfinite(fresh.part_b)))
        range = runnel_form_refuse(&input, RUNNEL_E_RANGE, "has a part that is not above 0");
    runnel_status status = read_basis(&input, rest, &fresh.basis);
    if (!status && !range)
        *ratio = fresh;
    return status ? status : range;
}
