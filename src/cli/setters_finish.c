/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Setters of what is done before and after the resin.
 */
#include "cli/draft.h"

#include <stdio.h>

/* Field of an option in messages. */
typedef struct field_name {
    char text[40];
} field_name;

static runnel_place place_of(const cli_option *option, field_name *field) {
    snprintf(field->text, sizeof field->text, "--%s", option->name);
    return (runnel_place){.file = "command line", .field = field->text};
}

static void *target_of(cli_draft *draft, const cli_option *option) {
    void *owner = option->owner == OWNER_PIECE ? (void *)draft->piece : (void *)draft->job;
    return (char *)owner + option->offset;
}

runnel_status set_sealer(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    draft->job->sealer.kind_is_default = false;
    return runnel_sealer_kind_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_cut(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_cut_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_under(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    draft->job->level.under_is_default = false;
    return runnel_under_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_order(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_order_parse(text, draft->problems, &place, target_of(draft, option));
}

/* Coats are of the sealer, and with oil of the oil. */
runnel_status set_coats(cli_draft *draft, const cli_option *option, const char *text) {
    cli_option own = *option;
    if (draft->command == COMMAND_OIL || draft->command == COMMAND_UPKEEP)
        own.offset = offsetof(runnel_job, oil.coats);
    return set_count_from_1(draft, &own, text);
}

runnel_status set_grain(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_grain_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_edges(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_edges_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_juice(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_juice_groove_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_holds(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_finger_holds_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_recipe(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_recipe_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_date(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_date_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_use(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_use_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_washing(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_washing_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_water(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_water_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_hours(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    runnel_status status = runnel_week_parse(text, draft->problems, &place, &draft->job->days.week);
    return status ? status : set_name(draft, option, text);
}

runnel_status set_days_off(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_days_off_parse(text, draft->problems, &place, target_of(draft, option));
}

runnel_status set_grits(cli_draft *draft, const cli_option *option, const char *text) {
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    return runnel_grits_parse(text, draft->problems, &place, target_of(draft, option));
}

/* In a job fewer than 0 stands for "not given". */
runnel_status set_raisings(cli_draft *draft, const cli_option *option, const char *text) {
    size_t count = 0;
    field_name field = {""};
    runnel_place place = place_of(option, &field);
    runnel_status status = runnel_count_parse(text, 10, draft->problems, &place, &count);
    if (!status)
        draft->job->raisings = (double)count;
    return status;
}
