/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/check.h"

#include "base/memory.h"
#include "base/slice.h"
#include "job/check_finish.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

typedef struct checker {
    runnel_job *job;
    const runnel_tables *tables;
    runnel_told_function ask;
    const void *state;
    runnel_problems *problems;
    runnel_status worst;
} checker;

static const runnel_spot whole_job = {RUNNEL_NOWHERE, RUNNEL_NOWHERE};

/* ---- Asking the reader, telling problems ----------------------------------------------------- */

static runnel_told told_of(const checker *check, runnel_spot spot, runnel_field_id id) {
    runnel_told told = {0};
    if (check->ask && !check->ask(check->state, spot, id, &told))
        told = (runnel_told){0};
    return told;
}

/* Whether the key was written, whatever became of it. */
static bool is_written(const checker *check, runnel_spot spot, runnel_field_id id) {
    runnel_told told;
    return check->ask && check->ask(check->state, spot, id, &told);
}

static bool is_refused(const checker *check, runnel_spot spot, runnel_field_id id) {
    return told_of(check, spot, id).refused;
}

/* The place of a value, or of what it is missing from. */
static void find_place(const checker *check, runnel_spot spot, runnel_field_id id,
                       runnel_place *place) {
    const runnel_job *job = check->job;
    runnel_told told = told_of(check, spot, id);
    runnel_scope scope = runnel_field_row(id)->scope;
    if (!told.line && scope == RUNNEL_SCOPE_CAVITY) {
        told.line = job->pieces[spot.first].cavities[spot.second].line;
        told.column = job->pieces[spot.first].cavities[spot.second].column;
    } else if (!told.line && scope == RUNNEL_SCOPE_PIECE) {
        told.line = job->pieces[spot.first].line;
        told.column = job->pieces[spot.first].column;
    } else if (!told.line) {
        told = told_of(check, whole_job, RUNNEL_FIELD_COUNT_OF);
    }
    place->file = job->file ? job->file : "command line";
    place->line = told.line;
    place->column = told.column;
}

/* Tells a problem of a field, unless the reader told one already. */
static void tell(checker *check, runnel_spot spot, runnel_field_id id, runnel_status status,
                 const char *format, ...) RUNNEL_PRINTF(5, 6);

static void tell(checker *check, runnel_spot spot, runnel_field_id id, runnel_status status,
                 const char *format, ...) {
    if (is_refused(check, spot, id))
        return;
    char text[1200], path[400];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    runnel_place place = {.field = runnel_field_path(check->job, spot, id, path, sizeof path)};
    find_place(check, spot, id, &place);
    runnel_problems_add(check->problems, status, &place, "%s", text);
    if (runnel_status_exit(status) > runnel_status_exit(check->worst))
        check->worst = status;
}

/* The text of a name inside a message. */
typedef struct shown {
    char text[RUNNEL_SHOWN_SIZE];
} shown;

static const char *show(const char *text, shown *room) {
    return runnel_slice_show(runnel_slice_of(text), room->text);
}

/* ---- Ranges ---------------------------------------------------------------------------------- */

static bool stands_for_none(const runnel_field *row, double value) {
    return ((row->flags & RUNNEL_NONE_ZERO) && value == 0) ||
           ((row->flags & RUNNEL_NONE_NEGATIVE) && value < 0) ||
           ((row->flags & RUNNEL_NONE_NAN) && isnan(value));
}

static bool in_range(const runnel_field *row, double value) {
    bool above = (row->flags & RUNNEL_ABOVE) ? value > row->low : value >= row->low;
    return above && value <= row->high;
}

static void tell_range(checker *check, runnel_spot spot, runnel_field_id id, double value) {
    const runnel_field *row = runnel_field_row(id);
    runnel_told told = told_of(check, spot, id);
    char number[440];
    shown room;
    const char *text =
        told.text ? show(told.text, &room) : runnel_field_show(row, value, number, sizeof number);
    tell(check, spot, id, RUNNEL_E_RANGE, "'%s' is out of range: '%s' must be %s", text, row->key,
         row->range);
}

static void check_number(checker *check, runnel_spot spot, runnel_field_id id, double value) {
    const runnel_field *row = runnel_field_row(id);
    bool is_none = stands_for_none(row, value) && !is_written(check, spot, id);
    if (!is_none && !in_range(row, value))
        tell_range(check, spot, id, value);
}

/* Ranges of all numbers of a scope. */
static void check_scope(checker *check, runnel_scope scope, runnel_spot spot) {
    for (int i = 0; i < RUNNEL_FIELD_COUNT_OF; i++) {
        runnel_field_id id = (runnel_field_id)i;
        const runnel_field *row = runnel_field_row(id);
        bool apart = id == RUNNEL_FIELD_SIZE || id == RUNNEL_FIELD_MEASURED ||
                     id == RUNNEL_FIELD_DEPTH || id == RUNNEL_FIELD_AT; /* more hangs on it */
        if (row->scope != scope || !row->range || apart)
            continue;
        const void *target = runnel_field_target(check->job, spot, id);
        if (row->kind == RUNNEL_KIND_COUNT)
            check_number(check, spot, id, (double)*(const size_t *)target);
        else
            check_number(check, spot, id, *(const double *)target);
    }
}

/* ---- The resin ------------------------------------------------------------------------------- */

static void check_ratio(checker *check) {
    const runnel_resin *resin = &check->job->resin;
    const runnel_ratio *other = &check->job->other_ratio;
    runnel_field_id id = is_written(check, whole_job, RUNNEL_FIELD_RESIN_RATIO)
                             ? RUNNEL_FIELD_RESIN_RATIO
                             : RUNNEL_FIELD_RATIO;
    if (resin->ratio.basis == RUNNEL_BASIS_NONE)
        tell(check, whole_job, id, RUNNEL_E_UNIT,
             "the ratio has no basis; write 'by volume' or 'by weight' after it");
    else if (other->basis == resin->ratio.basis)
        tell(check, whole_job, id, RUNNEL_E_CONFLICT,
             "both ratios have the same basis; give one, or one by volume and one by weight");
    bool fine = resin->ratio.part_a > 0 && resin->ratio.part_b > 0 &&
                isfinite(resin->ratio.part_a) && isfinite(resin->ratio.part_b);
    if (other->basis != RUNNEL_BASIS_NONE)
        fine = fine && other->part_a > 0 && other->part_b > 0 && isfinite(other->part_a) &&
               isfinite(other->part_b);
    if (!fine)
        tell(check, whole_job, id, RUNNEL_E_RANGE, "both parts of a ratio must be above 0");
}

/* Times are worth nothing without the temperature that they hold at, a pot life without its mass.
 */
static void check_times(checker *check) {
    static const runnel_field_id times[] = {RUNNEL_FIELD_POT_LIFE,    RUNNEL_FIELD_GEL,
                                            RUNNEL_FIELD_RECOAT_FROM, RUNNEL_FIELD_RECOAT_UNTIL,
                                            RUNNEL_FIELD_SANDABLE,    RUNNEL_FIELD_FULL_CURE};
    runnel_resin *resin = &check->job->resin;
    for (size_t i = 0; isnan(resin->stated_degc) && i < sizeof times / sizeof *times; i++) {
        if (isnan(*(double *)runnel_field_target(check->job, whole_job, times[i])))
            continue;
        tell(check, whole_job, RUNNEL_FIELD_STATED, RUNNEL_E_MISSING,
             "the times of the resin need the 'stated temperature' that they hold at");
        break;
    }
    if (!isnan(resin->pot_life_s) && isnan(resin->pot_mass_g))
        tell(check, whole_job, RUNNEL_FIELD_POT_MASS, RUNNEL_E_MISSING,
             "a 'pot life' needs the 'pot mass' that it was stated for");
    if (resin->recoat_until_s < resin->recoat_from_s)
        tell(check, whole_job, RUNNEL_FIELD_RECOAT_UNTIL, RUNNEL_E_CONFLICT,
             "'recoat until' is earlier than 'recoat from'");
}

static void check_resin(checker *check) {
    check_scope(check, RUNNEL_SCOPE_RESIN, whole_job);
    if (is_refused(check, whole_job, RUNNEL_FIELD_RESIN) ||
        is_refused(check, whole_job, RUNNEL_FIELD_RESIN_ROW))
        return; /* the values of the row are not known */
    check_ratio(check);
    check_times(check);
}

/* ---- Cavities -------------------------------------------------------------------------------- */

static const struct {
    const char *key;
    unsigned flag;
    runnel_field_id id;
} sources[] = {
    [RUNNEL_SOURCE_NONE] = {NULL, 0, RUNNEL_FIELD_TEXT},
    [RUNNEL_SOURCE_TEXT] = {"text", RUNNEL_WITH_TEXT, RUNNEL_FIELD_TEXT},
    [RUNNEL_SOURCE_OUTLINE] = {"outline", RUNNEL_WITH_OUTLINE, RUNNEL_FIELD_OUTLINE},
    [RUNNEL_SOURCE_PATH] = {"path", RUNNEL_WITH_PATH, RUNNEL_FIELD_PATH},
    [RUNNEL_SOURCE_MEASURED] = {"measured", RUNNEL_WITH_MEASURED, RUNNEL_FIELD_MEASURED},
};

static const runnel_job_cavity *cavity_at(const checker *check, runnel_spot spot) {
    return &check->job->pieces[spot.first].cavities[spot.second];
}

/* Whether a key of a cavity was given, in the file or, without one, by its value. */
static bool is_given(const checker *check, runnel_spot spot, runnel_field_id id) {
    if (check->ask)
        return is_written(check, spot, id);
    const runnel_field *row = runnel_field_row(id);
    const void *target = runnel_field_target(check->job, spot, id);
    const runnel_job_cavity *cavity = cavity_at(check, spot);
    switch ((int)row->kind) {
    case RUNNEL_KIND_QUANTITY:
    case RUNNEL_KIND_NUMBER:
        return *(const double *)target != 0;
    case RUNNEL_KIND_NAME:
        return *(char *const *)target != NULL;
    case RUNNEL_KIND_FONT:
        return cavity->font && !cavity->single_line;
    case RUNNEL_KIND_SINGLE_LINE:
        return cavity->font && cavity->single_line;
    case RUNNEL_KIND_ALIGN:
        return cavity->align != RUNNEL_ALIGN_START;
    case RUNNEL_KIND_CUTTER:
        return cavity->cut.cutter.kind != RUNNEL_CUTTER_NONE;
    case RUNNEL_KIND_POINT:
        return cavity->is_placed;
    default:
        return false;
    }
}

/* Keys that do not go with the source of shape. */
static void check_company(checker *check, runnel_spot spot) {
    runnel_source source = cavity_at(check, spot)->source;
    for (int i = 0; i < RUNNEL_FIELD_COUNT_OF; i++) {
        runnel_field_id id = (runnel_field_id)i;
        const runnel_field *row = runnel_field_row(id);
        unsigned company = row->flags & (RUNNEL_WITH_TEXT | RUNNEL_WITH_OUTLINE | RUNNEL_WITH_PATH |
                                         RUNNEL_WITH_MEASURED);
        bool is_source = id >= RUNNEL_FIELD_TEXT && id <= RUNNEL_FIELD_MEASURED;
        if (row->scope != RUNNEL_SCOPE_CAVITY || !company || is_source ||
            (company & sources[source].flag) || !is_given(check, spot, id))
            continue;
        tell(check, spot, id, RUNNEL_E_CONFLICT, "'%s' does not go with '%s'", row->key,
             sources[source].key);
    }
}

static void check_text(checker *check, runnel_spot spot) {
    const runnel_job_cavity *cavity = cavity_at(check, spot);
    if (!cavity->text || !*cavity->text)
        tell(check, spot, RUNNEL_FIELD_TEXT, RUNNEL_E_MISSING, "the text is empty");
    if (!cavity->font && !is_refused(check, spot, RUNNEL_FIELD_SINGLE_LINE))
        tell(check, spot, RUNNEL_FIELD_FONT, RUNNEL_E_MISSING,
             "a text needs a 'font', or 'single-line' with a set of single-line letters");
    bool cap = is_given(check, spot, RUNNEL_FIELD_CAP_HEIGHT);
    bool block = is_given(check, spot, RUNNEL_FIELD_TEXT_HEIGHT);
    if (cap && block)
        tell(check, spot, RUNNEL_FIELD_TEXT_HEIGHT, RUNNEL_E_CONFLICT,
             "'cap height' and 'text height' are both given; give one of them");
    else if (!cap && !block)
        tell(check, spot, RUNNEL_FIELD_CAP_HEIGHT, RUNNEL_E_MISSING,
             "a text needs a 'cap height' (of its capital H) or a 'text height' (of all its ink)");
}

static void check_measured(checker *check, runnel_spot spot) {
    double volume_mm3 = cavity_at(check, spot)->measured_mm3;
    if (!in_range(runnel_field_row(RUNNEL_FIELD_MEASURED), volume_mm3))
        tell_range(check, spot, RUNNEL_FIELD_MEASURED, volume_mm3);
}

/* The shapes of a job file come through the readers of written forms, those of a program do not. */
static void check_form(checker *check, runnel_spot spot) {
    const runnel_job_cavity *cavity = cavity_at(check, spot);
    const runnel_form *form = &cavity->form;
    runnel_field_id id = sources[cavity->source].id;
    bool by_corners = form->kind == RUNNEL_FORM_POLYGON || form->kind == RUNNEL_FORM_LINE ||
                      form->kind == RUNNEL_FORM_POLYLINE;
    bool open = by_corners && form->kind != RUNNEL_FORM_POLYGON;
    if (form->kind == RUNNEL_FORM_NONE || (by_corners && !form->corners.point_count) ||
        (open && cavity->source == RUNNEL_SOURCE_OUTLINE))
        tell(check, spot, id, RUNNEL_E_SHAPE, "the shape is not one that can be cut as '%s'",
             sources[cavity->source].key);
    else if (!by_corners &&
             !(form->a_mm > 0 && form->a_mm <= 10000 && form->b_mm >= 0 && form->b_mm <= 10000))
        tell(check, spot, id, RUNNEL_E_RANGE,
             "the shape is out of range: its sizes must be above 0 and at most 10 m");
}

static bool is_cutter_fine(const runnel_cutter *cutter) {
    if (cutter->kind == RUNNEL_CUTTER_V)
        return cutter->angle_deg > 0 && cutter->angle_deg < 180 && cutter->tip_mm >= 0 &&
               cutter->tip_mm <= 500;
    return cutter->radius_mm > 0 && cutter->radius_mm <= 500;
}

/* How a shape is cut by a cutter. */
static runnel_cut_rule rule_of(const runnel_job_cavity *cavity) {
    if (cavity->source == RUNNEL_SOURCE_PATH || cavity->single_line)
        return RUNNEL_CUT_PATH;
    return cavity->cut.cutter.kind == RUNNEL_CUTTER_V ? RUNNEL_CUT_WALLS : RUNNEL_CUT_POCKET;
}

static void check_limit(checker *check, runnel_spot spot) {
    if (is_given(check, spot, RUNNEL_FIELD_DEPTH))
        tell(check, spot, RUNNEL_FIELD_DEPTH, RUNNEL_E_CONFLICT,
             "a V cutter goes as deep as the walls of an outline are apart, so it has no 'depth'; "
             "write 'depth limit' for the deepest that it may go");
}

static void check_depth(checker *check, runnel_spot spot, runnel_cut_rule rule) {
    const runnel_job_piece *piece = &check->job->pieces[spot.first];
    double depth_mm = cavity_at(check, spot)->depth_mm;
    if (is_given(check, spot, RUNNEL_FIELD_DEPTH_LIMIT)) {
        tell(check, spot, RUNNEL_FIELD_DEPTH_LIMIT, RUNNEL_E_CONFLICT,
             rule == RUNNEL_CUT_PATH
                 ? "'depth limit' is for a V cutter between the walls of an outline; along a path "
                   "write 'depth'"
                 : "'depth limit' is for a V cutter; for a round-nose or flat cutter write "
                   "'depth'");
    } else if (!is_given(check, spot, RUNNEL_FIELD_DEPTH)) {
        tell(check, spot, RUNNEL_FIELD_DEPTH, RUNNEL_E_MISSING,
             rule == RUNNEL_CUT_PATH
                 ? "a cutter that follows a path needs a 'depth'"
                 : "a round-nose or flat cutter clears an outline to one depth; give the 'depth'");
    }
    check_number(check, spot, RUNNEL_FIELD_DEPTH, depth_mm);
    const runnel_field *row = runnel_field_row(RUNNEL_FIELD_DEPTH);
    if (piece->thickness_mm > 0 && depth_mm >= piece->thickness_mm && in_range(row, depth_mm)) {
        char deep[440], thick[440];
        tell(check, spot, RUNNEL_FIELD_DEPTH, RUNNEL_E_RANGE,
             "'depth' %s would cut through the piece, which is %s thick",
             runnel_field_show(row, depth_mm, deep, sizeof deep),
             runnel_field_show(row, piece->thickness_mm, thick, sizeof thick));
    }
}

static void check_cutter(checker *check, runnel_spot spot) {
    const runnel_job_cavity *cavity = cavity_at(check, spot);
    if (cavity->cut.cutter.kind == RUNNEL_CUTTER_NONE) {
        tell(check, spot, RUNNEL_FIELD_CUTTER, RUNNEL_E_MISSING,
             "a 'cutter' is needed: a name from 'runnel list cutters', or one written out, such as "
             "'v 60 deg'");
        check_number(check, spot, RUNNEL_FIELD_DEPTH, cavity->depth_mm);
        return;
    }
    if (!is_cutter_fine(&cavity->cut.cutter))
        tell(check, spot, RUNNEL_FIELD_CUTTER, RUNNEL_E_RANGE,
             "the cutter is out of range: an angle must be above 0 deg and below 180 deg, a tip "
             "from 0 mm to 500 mm, a radius above 0 and at most 500 mm");
    runnel_cut_rule rule = rule_of(cavity);
    if (rule == RUNNEL_CUT_WALLS)
        check_limit(check, spot);
    else
        check_depth(check, spot, rule);
}

/* Whether it is known what the shape comes from; otherwise nothing that hangs on it is told. */
static bool has_source(checker *check, runnel_spot spot) {
    bool any = false;
    for (size_t i = 1; i < sizeof sources / sizeof *sources; i++) {
        if (is_refused(check, spot, sources[i].id))
            return false;
        any = any || cavity_at(check, spot)->source == (runnel_source)i;
    }
    if (!any)
        tell(check, spot, RUNNEL_FIELD_TEXT, RUNNEL_E_MISSING,
             "the cavity has no shape; give one of 'text', 'outline', 'path' and 'measured'");
    return any;
}

static void check_at(checker *check, runnel_spot spot) {
    const runnel_field *row = runnel_field_row(RUNNEL_FIELD_AT);
    const runnel_job_cavity *cavity = cavity_at(check, spot);
    if (cavity->is_placed && !in_range(row, cavity->at_x_mm))
        tell_range(check, spot, RUNNEL_FIELD_AT, cavity->at_x_mm);
    else if (cavity->is_placed && !in_range(row, cavity->at_y_mm))
        tell_range(check, spot, RUNNEL_FIELD_AT, cavity->at_y_mm);
}

static void check_cavity(checker *check, runnel_spot spot) {
    runnel_source source = cavity_at(check, spot)->source;
    check_scope(check, RUNNEL_SCOPE_CAVITY, spot);
    if (!has_source(check, spot)) {
        check_number(check, spot, RUNNEL_FIELD_DEPTH, cavity_at(check, spot)->depth_mm);
        return;
    }
    check_company(check, spot);
    check_at(check, spot);
    if (source == RUNNEL_SOURCE_TEXT)
        check_text(check, spot);
    else if (source != RUNNEL_SOURCE_MEASURED)
        check_form(check, spot);
    if (source == RUNNEL_SOURCE_MEASURED)
        check_measured(check, spot);
    else
        check_cutter(check, spot);
}

/* ---- Pieces ---------------------------------------------------------------------------------- */

static void check_wood(checker *check, runnel_spot spot) {
    const char *wood = check->job->pieces[spot.first].wood;
    if (!wood || runnel_tables_wood(check->tables, wood))
        return;
    shown room;
    const char *nearest = runnel_tables_nearest(check->tables, "woods", wood);
    if (nearest)
        tell(check, spot, RUNNEL_FIELD_WOOD, RUNNEL_E_UNKNOWN,
             "no wood is called '%s'; the nearest name is '%s'", show(wood, &room), nearest);
    else
        tell(check, spot, RUNNEL_FIELD_WOOD, RUNNEL_E_UNKNOWN,
             "no wood is called '%s'; 'runnel list woods' shows the names", show(wood, &room));
}

static void check_size(checker *check, runnel_spot spot) {
    const runnel_job_piece *piece = &check->job->pieces[spot.first];
    const double sides[] = {piece->length_mm, piece->width_mm, piece->thickness_mm};
    bool none = sides[0] == 0 && sides[1] == 0 && sides[2] == 0 &&
                !is_written(check, spot, RUNNEL_FIELD_SIZE);
    for (size_t i = 0; !none && i < 3; i++) {
        if (in_range(runnel_field_row(RUNNEL_FIELD_SIZE), sides[i]))
            continue;
        tell_range(check, spot, RUNNEL_FIELD_SIZE, sides[i]);
        break;
    }
}

/* The time of a piece is for all its cavities of a colour. */
static void check_pour(checker *check, runnel_spot spot) {
    if (check->job->pieces[spot.first].pour_s > 0 && cavity_at(check, spot)->pour_s > 0)
        tell(check, spot, RUNNEL_FIELD_POUR, RUNNEL_E_CONFLICT,
             "'pour time' is given for the piece already, for all its cavities of a colour; give "
             "it for the piece or for its cavities");
}

static void check_piece(checker *check, runnel_spot spot) {
    const runnel_job_piece *piece = &check->job->pieces[spot.first];
    check_scope(check, RUNNEL_SCOPE_PIECE, spot);
    check_wood(check, spot);
    check_size(check, spot);
    if (!piece->cavity_count)
        tell(check, spot, RUNNEL_FIELD_CAVITIES, RUNNEL_E_MISSING,
             "the piece has no cavity; list at least one under 'cavities'");
    for (size_t i = 0; i < piece->cavity_count; i++) {
        check_cavity(check, (runnel_spot){spot.first, i});
        check_pour(check, (runnel_spot){spot.first, i});
    }
}

/* ---- Names ----------------------------------------------------------------------------------- */

static void check_names(checker *check, const runnel_filling *all) {
    shown room;
    for (size_t i = 0; i < check->job->piece_count; i++) {
        if (all->pieces[i].first != i)
            tell(check, (runnel_spot){i, RUNNEL_NOWHERE}, RUNNEL_FIELD_PIECE_NAME,
                 RUNNEL_E_CONFLICT, "two pieces are called '%s'; each needs a name of its own",
                 show(all->pieces[i].name, &room));
        for (size_t k = 0; k < check->job->pieces[i].cavity_count; k++)
            if (all->cavities[i][k].first != k)
                tell(check, (runnel_spot){i, k}, RUNNEL_FIELD_CAVITY_NAME, RUNNEL_E_CONFLICT,
                     "two cavities of the piece are called '%s'; each needs a name of its own",
                     show(all->cavities[i][k].name, &room));
    }
}

/* ---- The finish ------------------------------------------------------------------------------ */

static void tell_finish(void *state, runnel_field_id id, runnel_status status, const char *text) {
    checker *check = state;
    tell(check, whole_job, id, status, "%s", text);
}

static void check_finish(checker *check) {
    check_scope(check, RUNNEL_SCOPE_SEALER, whole_job);
    check_scope(check, RUNNEL_SCOPE_LEVEL, whole_job);
    check_scope(check, RUNNEL_SCOPE_OIL, whole_job);
    check_scope(check, RUNNEL_SCOPE_WAX, whole_job);
    /* What goes with what is not known when the kind is not. */
    if (!is_refused(check, whole_job, RUNNEL_FIELD_SEALER) &&
        !is_refused(check, whole_job, RUNNEL_FIELD_SEALER_KIND))
        runnel_check_sealer(check->job, tell_finish, check);
    runnel_check_oil(check->job, check->tables, tell_finish, check);
    runnel_check_days(check->job, tell_finish, check);
}

/* ---- All of it ------------------------------------------------------------------------------- */

static void check_all(checker *check) {
    runnel_job *job = check->job;
    if (job->resin.name)
        check_resin(check);
    else if (!runnel_tables_resin(check->tables, RUNNEL_DEFAULT_RESIN))
        tell(check, whole_job, RUNNEL_FIELD_RESIN, RUNNEL_E_MISSING,
             "a 'resin' is needed, as the tables do not hold the default one, '%s'",
             RUNNEL_DEFAULT_RESIN);
    check_scope(check, RUNNEL_SCOPE_JOB, whole_job);
    check_scope(check, RUNNEL_SCOPE_SCALE, whole_job);
    check_scope(check, RUNNEL_SCOPE_SHOP, whole_job);
    check_scope(check, RUNNEL_SCOPE_DESTINATION, whole_job);
    check_scope(check, RUNNEL_SCOPE_CUP, whole_job);
    check_scope(check, RUNNEL_SCOPE_ERRORS, whole_job);
    check_finish(check);
    for (size_t i = 0; i < job->colour_count; i++)
        check_scope(check, RUNNEL_SCOPE_COLOUR, (runnel_spot){i, RUNNEL_NOWHERE});
    if (!job->piece_count)
        tell(check, whole_job, RUNNEL_FIELD_PIECES, RUNNEL_E_MISSING,
             "the job has no piece; list at least one under 'pieces'");
    for (size_t i = 0; i < job->piece_count; i++)
        check_piece(check, (runnel_spot){i, RUNNEL_NOWHERE});
}

/* What the cutter makes of each cavity. */
static void set_cuts(runnel_job *job) {
    for (size_t i = 0; i < job->piece_count; i++) {
        for (size_t k = 0; k < job->pieces[i].cavity_count; k++) {
            runnel_job_cavity *cavity = &job->pieces[i].cavities[k];
            cavity->cut.rule = rule_of(cavity);
            cavity->cut.depth_mm =
                cavity->cut.rule == RUNNEL_CUT_WALLS ? cavity->depth_limit_mm : cavity->depth_mm;
        }
    }
}

runnel_status runnel_job_check_told(runnel_job *job, const runnel_tables *tables,
                                    runnel_told_function ask, const void *state,
                                    runnel_problems *problems) {
    checker check = {job, tables, ask, state, problems, RUNNEL_OK};
    size_t dropped = problems ? problems->dropped : 0;
    runnel_filling filling = {0};
    runnel_status status = runnel_filling_names(job, &filling);
    if (status)
        goto cleanup;
    check_all(&check);
    check_names(&check, &filling);
    status = check.worst;
    if (problems && problems->dropped > dropped)
        status = RUNNEL_E_NO_MEMORY;
    if (!status)
        status = runnel_filling_take(tables, &filling, job);
    if (!status)
        set_cuts(job);
cleanup:
    runnel_filling_clear(job, &filling);
    return status;
}

runnel_status runnel_job_check(runnel_job *job, const runnel_tables *tables,
                               runnel_problems *problems) {
    return runnel_job_check_told(job, tables, NULL, NULL, problems);
}
