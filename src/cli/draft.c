/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/draft.h"

#include <stdio.h>
#include <string.h>

/* Which options were refused, so that nothing that only follows from that is told. */
typedef struct refusals {
    bool of[OPTION_IDS];
} refusals;

/* ---- Options into the job ---------------------------------------------------------------------
 */

/* A single value of a resin stands over the default row when no other is named. Where only the
 * settings count, a cavity that is right stands for the shape that is not asked for. */
static runnel_status start_alone(cli_draft *draft, bool shaped) {
    runnel_job_piece *piece;
    runnel_job_cavity *cavity;
    runnel_status status = runnel_job_add_piece(draft->job, &piece);
    if (!status)
        status = runnel_job_add_cavity(piece, &cavity);
    if (!status && runnel_tables_resin(draft->tables, RUNNEL_DEFAULT_RESIN))
        status = runnel_job_set_resin(draft->job, NULL, draft->tables, NULL, NULL);
    if (status)
        return status;
    if (!shaped) {
        cavity->source = RUNNEL_SOURCE_MEASURED;
        cavity->measured_mm3 = RUNNEL_MM3_PER_ML;
    }
    draft->piece = piece;
    draft->cavity = cavity;
    return RUNNEL_OK;
}

static runnel_status take_options(cli_draft *draft, const cli_arguments *arguments,
                                  refusals *refused) {
    for (int i = 0; i < OPTION_IDS; i++) {
        const cli_option *option = option_row((option_id)i);
        const char *text = arguments->values[i];
        if (!text || !option->set)
            continue;
        runnel_status status = option->set(draft, option, text);
        if (status == RUNNEL_E_NO_MEMORY)
            return status;
        refused->of[i] = status != RUNNEL_OK;
    }
    /* A height that could not be read was given all the same. */
    if (refused->of[OPTION_TEXT_HEIGHT])
        draft->cavity->text_height_mm = 1;
    return RUNNEL_OK;
}

/* ---- The check, in the words of the options ---------------------------------------------------
 */

/* The option that a field of a job without a file is about; OPTION_IDS when there is none. Most go
 * by the name of the key. */
static option_id option_of(const char *field) {
    static const struct {
        const char *key;
        option_id id;
    } others[] = {{"step", OPTION_SCALE}, {"diameter", OPTION_CUP}, {"row", OPTION_RESIN}};
    const char *key = field ? field + strspn(field, "-") : "";
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (!strcmp(key, others[i].key))
            return others[i].id;
    int id = 0;
    while (id < OPTION_IDS && strcmp(key, option_row((option_id)id)->name) != 0)
        id++;
    return (option_id)id;
}

static void tell_again(const runnel_problem *problem, const refusals *refused,
                       runnel_problems *problems) {
    option_id id = option_of(problem->field);
    /* Whether letters are cut between their walls or along a line depends on what was refused. */
    bool open = refused->of[OPTION_SINGLE_LINE] && (id == OPTION_DEPTH || id == OPTION_DEPTH_LIMIT);
    char field[40];
    runnel_place place = {problem->file, problem->line, problem->column, problem->field};
    if (id < OPTION_IDS) {
        if (refused->of[id] || open)
            return;
        snprintf(field, sizeof field, "--%s", option_row(id)->name);
        place.field = field;
    }
    runnel_problems_add(problems, problem->status, &place, "%s", problem->text);
}

/* Checks a job as one without a file, so that the messages name options. */
static runnel_status check(cli_draft *draft, const refusals *refused) {
    runnel_problems found;
    runnel_problems_init(&found);
    char *file = draft->job->file;
    draft->job->file = NULL;
    runnel_status status = runnel_job_check(draft->job, draft->tables, &found);
    draft->job->file = file;
    for (size_t i = 0; i < found.count; i++)
        tell_again(&found.items[i], refused, draft->problems);
    draft->problems->dropped += found.dropped;
    runnel_problems_clear(&found);
    return status;
}

/* A text on one line, cut at the border of a character when it is long. */
static void copy_line(const char *text, char *line, size_t size) {
    size_t length = strlen(text);
    if (length >= size)
        length = size - 1;
    while (text[length] && ((unsigned char)text[length] & 0xC0) == 0x80)
        length--;
    for (size_t i = 0; i < length; i++)
        line[i] = (unsigned char)text[i] < ' ' || text[i] == 0x7F ? ' ' : text[i];
    line[length] = '\0';
}

/* A job without a name goes by the shape, as it was written. */
static runnel_status name_by_shape(const cli_draft *draft, const cli_arguments *arguments) {
    static const option_id sources[] = {OPTION_TEXT, OPTION_OUTLINE, OPTION_PATH, OPTION_MEASURED,
                                        OPTION_SIZE};
    char line[201];
    for (size_t i = 0; i < sizeof sources / sizeof *sources && !draft->job->name; i++) {
        const char *shape = arguments->values[sources[i]];
        if (!shape)
            continue;
        copy_line(shape, line, sizeof line);
        draft->job->name = runnel_copy_text(line);
        if (!draft->job->name)
            return RUNNEL_E_NO_MEMORY;
    }
    return RUNNEL_OK;
}

/* ---- The job ----------------------------------------------------------------------------------
 */

static runnel_status read_file(const char *path, const runnel_tables *tables,
                               runnel_problems *problems, runnel_job *job) {
    char *text;
    size_t length;
    runnel_status status = runnel_file_read(path, problems, &text, &length);
    if (status)
        return status;
    status = runnel_job_read_yaml(text, length, !strcmp(path, "-") ? "standard input" : path,
                                  tables, problems, job);
    runnel_free(text);
    return status;
}

runnel_status draft_job(const cli_arguments *arguments, const runnel_tables *tables,
                        runnel_problems *problems, runnel_job *job) {
    const command_operand operand = command_row(arguments->command)->operand;
    const bool shaped = operand == OPERAND_JOB || operand == OPERAND_JOBS || has_shape(arguments);
    cli_draft draft = {
        .command = arguments->command, .job = job, .tables = tables, .problems = problems};
    refusals refused = {{false}};
    runnel_status status = arguments->operand ? read_file(arguments->operand, tables, problems, job)
                                              : start_alone(&draft, shaped);
    if (status == RUNNEL_E_NO_MEMORY || (status && !arguments->operand))
        return status;
    bool readable = !status;
    status = take_options(&draft, arguments, &refused);
    if (!status && !arguments->operand)
        status = name_by_shape(&draft, arguments);
    if (!status && readable)
        status = check(&draft, &refused);
    runnel_status told = runnel_problems_status(problems);
    return told ? told : status;
}
