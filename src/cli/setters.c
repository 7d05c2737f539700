/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/draft.h"

#include <stdio.h>
#include <string.h>

/* ---- Help of the setters ----------------------------------------------------------------------
 */

static const char file_word[] = "command line";

/* Field of an option in messages. */
typedef struct field_name {
    char text[40];
} field_name;

static runnel_place place_of(const cli_option *option, field_name *field) {
    snprintf(field->text, sizeof field->text, "--%s", option->name);
    return (runnel_place){.file = file_word, .field = field->text};
}

static void *target_of(cli_draft *draft, const cli_option *option) {
    void *owners[] = {
        [OWNER_JOB] = draft->job, [OWNER_PIECE] = draft->piece, [OWNER_CAVITY] = draft->cavity};
    return (char *)owners[option->owner] + option->offset;
}

static runnel_status tell(cli_draft *draft, const cli_option *option, runnel_status status,
                          const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_problems_add(draft->problems, status, &place, "%s", text);
}

static runnel_status keep(char **where, const char *text) {
    char *copy = runnel_copy_text(text);
    if (!copy)
        return RUNNEL_E_NO_MEMORY;
    runnel_free(*where);
    *where = copy;
    return RUNNEL_OK;
}

/* ---- Texts ------------------------------------------------------------------------------------
 */

runnel_status set_text(cli_draft *draft, const cli_option *option, const char *text) {
    draft->cavity->source = RUNNEL_SOURCE_TEXT;
    return keep(target_of(draft, option), text);
}

/* A name has the limits that it has in a job file: one line of 200 bytes. */
runnel_status set_name(cli_draft *draft, const cli_option *option, const char *text) {
    enum { LONGEST = 200 };
    if (!*text)
        return tell(draft, option, RUNNEL_E_MISSING, "it is empty");
    if (strlen(text) > LONGEST)
        return tell(draft, option, RUNNEL_E_RANGE, "it is too long: it may have 200 bytes");
    for (const char *at = text; *at; at++)
        if ((*at > 0 && *at < ' ') || *at == 0x7F)
            return tell(draft, option, RUNNEL_E_SYNTAX,
                        "it holds a line end, a tab or another control character");
    return keep(target_of(draft, option), text);
}

runnel_status set_single_line(cli_draft *draft, const cli_option *option, const char *text) {
    if (draft->cavity->font)
        return tell(draft, option, RUNNEL_E_CONFLICT,
                    "'font' and 'single-line' are both given; give one of them");
    draft->cavity->single_line = true;
    return set_name(draft, option, text);
}

runnel_status set_align(cli_draft *draft, const cli_option *option, const char *text) {
    int word = word_in(ALIGN_WORDS, text);
    if (word < 0) {
        field_name field = {""};
        runnel_place place = place_of(option, &field);
        return runnel_problems_add(draft->problems, RUNNEL_E_UNKNOWN, &place,
                                   "'%.60s' must be 'start', 'centre' or 'end'", text);
    }
    draft->cavity->align = (runnel_align)word;
    return RUNNEL_OK;
}

runnel_status set_size_to(cli_draft *draft, const cli_option *option, const char *text) {
    int word = word_in(SIZE_TO_WORDS, text);
    if (word < 0) {
        field_name field = {""};
        runnel_place place = place_of(option, &field);
        return runnel_problems_add(draft->problems, RUNNEL_E_UNKNOWN, &place,
                                   "'%.60s' must be 'high' or 'likely'", text);
    }
    draft->job->size_to = (runnel_size_to)word;
    return RUNNEL_OK;
}

/* ---- Numbers ----------------------------------------------------------------------------------
 */

runnel_status set_quantity(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_quantity_parse(text, option->dimension, draft->problems, &place,
                                 target_of(draft, option));
}

/* In a job 0 or less can stand for "not given"; what was given must not. */
static runnel_status tell_range(cli_draft *draft, const cli_option *option, const char *text,
                                const char *range) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_problems_add(draft->problems, RUNNEL_E_RANGE, &place,
                               "'%.60s' is out of range: it must be %s", text, range);
}

runnel_status set_above_0(cli_draft *draft, const cli_option *option, const char *text) {
    const double *target = target_of(draft, option);
    runnel_status status = set_quantity(draft, option, text);
    return !status && *target <= 0 ? tell_range(draft, option, text, "above 0") : status;
}

runnel_status set_from_0(cli_draft *draft, const cli_option *option, const char *text) {
    const double *target = target_of(draft, option);
    runnel_status status = set_quantity(draft, option, text);
    return !status && *target < 0 ? tell_range(draft, option, text, "0 or above") : status;
}

runnel_status set_percent(cli_draft *draft, const cli_option *option, const char *text) {
    double *target = target_of(draft, option);
    runnel_status status = set_quantity(draft, option, text);
    if (!status)
        *target *= 100;
    return status;
}

runnel_status set_number(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_number_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_number_above_0(cli_draft *draft, const cli_option *option, const char *text) {
    const double *target = target_of(draft, option);
    runnel_status status = set_number(draft, option, text);
    return !status && *target <= 0 ? tell_range(draft, option, text, "above 0") : status;
}

runnel_status set_count(cli_draft *draft, const cli_option *option, const char *text) {
    enum { MOST = 100000 };
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_count_parse(text, MOST, draft->problems, &place, target_of(draft, option));
}

/* Of a job's count 0 can stand for "not given"; the largest one is the check's to tell. */
runnel_status set_count_from_1(cli_draft *draft, const cli_option *option, const char *text) {
    const size_t *target = target_of(draft, option);
    runnel_status status = set_count(draft, option, text);
    return !status && !*target ? tell_range(draft, option, text, "1 or more") : status;
}

runnel_status set_size(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    double sides_mm[3];
    runnel_status status = runnel_lengths_parse(text, 3, draft->problems, &place, sides_mm);
    if (status)
        return status;
    if (!(sides_mm[0] > 0 && sides_mm[1] > 0 && sides_mm[2] > 0))
        return tell_range(draft, option, text, "above 0 each way");
    draft->piece->length_mm = sides_mm[0];
    draft->piece->width_mm = sides_mm[1];
    draft->piece->thickness_mm = sides_mm[2];
    return RUNNEL_OK;
}

/* ---- Shapes and cutters -----------------------------------------------------------------------
 */

/* A cavity has one source of shape; the first stays it. */
static runnel_status claim(cli_draft *draft, const cli_option *option, runnel_source source) {
    static const char *const names[] = {[RUNNEL_SOURCE_NONE] = "",
                                        [RUNNEL_SOURCE_TEXT] = "text",
                                        [RUNNEL_SOURCE_OUTLINE] = "outline",
                                        [RUNNEL_SOURCE_PATH] = "path",
                                        [RUNNEL_SOURCE_MEASURED] = "measured"};
    runnel_source before = draft->cavity->source;
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    if (before == RUNNEL_SOURCE_NONE) {
        draft->cavity->source = source;
        return RUNNEL_OK;
    }
    return runnel_problems_add(draft->problems, RUNNEL_E_CONFLICT, &place,
                               "'%s' and '%s' are both given; a cavity has one source of shape",
                               names[before], names[source]);
}

static runnel_status set_form(cli_draft *draft, const cli_option *option, const char *text,
                              runnel_source source,
                              runnel_status (*parse)(const char *, runnel_problems *,
                                                     const runnel_place *, runnel_form *)) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    runnel_form form = {0};
    runnel_status claimed = claim(draft, option, source);
    runnel_status status = parse(text, draft->problems, &place, &form);
    if (status || claimed)
        runnel_form_clear(&form);
    else
        draft->cavity->form = form;
    return status ? status : claimed;
}

runnel_status set_outline(cli_draft *draft, const cli_option *option, const char *text) {
    return set_form(draft, option, text, RUNNEL_SOURCE_OUTLINE, runnel_form_parse_outline);
}

runnel_status set_path(cli_draft *draft, const cli_option *option, const char *text) {
    return set_form(draft, option, text, RUNNEL_SOURCE_PATH, runnel_form_parse_path);
}

runnel_status set_measured(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    runnel_status claimed = claim(draft, option, RUNNEL_SOURCE_MEASURED);
    runnel_status status =
        runnel_measured_parse(text, draft->problems, &place, target_of(draft, option));
    return status ? status : claimed;
}

runnel_status set_cutter(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    runnel_status status =
        runnel_job_cutter(text, draft->tables, draft->problems, &place, &draft->cavity->cut.cutter);
    return status ? status : keep(target_of(draft, option), text);
}

/* ---- Resin and shop ---------------------------------------------------------------------------
 */

/* The tint of the one colour there is. */
runnel_status set_tint(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    const char *name = draft->cavity->colour ? draft->cavity->colour : RUNNEL_DEFAULT_COLOUR;
    runnel_job_colour *colour;
    double tint;
    runnel_status status =
        runnel_quantity_parse(text, option->dimension, draft->problems, &place, &tint);
    if (status)
        return status;
    if (tint < 0)
        return tell_range(draft, option, text, "0 % or above");
    status = runnel_job_colour_named(draft->job, name, &colour);
    if (!status)
        colour->tint = tint;
    return status;
}

runnel_status set_resin(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    runnel_status status =
        runnel_job_set_resin(draft->job, text, draft->tables, draft->problems, &place);
    if (!status)
        draft->job->other_ratio = (runnel_ratio){.basis = RUNNEL_BASIS_NONE};
    return status;
}

runnel_status set_ratio(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    runnel_status status =
        runnel_ratio_parse(text, draft->problems, &place, &draft->job->resin.ratio);
    if (status)
        return status;
    draft->job->other_ratio = (runnel_ratio){.basis = RUNNEL_BASIS_NONE};
    draft->job->resin_changed = true;
    return RUNNEL_OK;
}

runnel_status set_scale(cli_draft *draft, const cli_option *option, const char *text) {
    draft->job->scale_is_default = false;
    return set_quantity(draft, option, text);
}

runnel_status set_temperature(cli_draft *draft, const cli_option *option, const char *text) {
    draft->job->shop_is_default = false;
    return set_quantity(draft, option, text);
}

runnel_status set_error(cli_draft *draft, const cli_option *option, const char *text) {
    draft->job->errors_are_default = false;
    return set_quantity(draft, option, text);
}

runnel_status set_sealed(cli_draft *draft, const cli_option *option, const char *text) {
    (void)text;
    *(bool *)target_of(draft, option) = true;
    return RUNNEL_OK;
}

runnel_status set_bare(cli_draft *draft, const cli_option *option, const char *text) {
    (void)text;
    *(bool *)target_of(draft, option) = false;
    return RUNNEL_OK;
}
