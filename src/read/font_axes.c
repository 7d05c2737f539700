/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/font_axes.h"

#include "read/font.h"

#include "base/late.h"
#include "base/memory.h"
#include "runnel/units.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_MULTIPLE_MASTERS_H

#include <hb.h>

#include <math.h>
#include <string.h>

#define CALLS(X)                                                                                   \
    X(FT_Done_MM_Var)                                                                              \
    X(FT_Get_MM_Var)                                                                               \
    X(FT_Get_Var_Design_Coordinates)                                                               \
    X(FT_Set_Var_Design_Coordinates)                                                               \
    X(hb_font_set_var_coords_design)
RUNNEL_LATE(CALLS, RUNNEL_LATE_FREETYPE, RUNNEL_LATE_HARFBUZZ);

/** Axis values are 16.16 fixed point numbers: 600 is 39321600. */
#define FIXED_ONE 65536.0

/** What is at work while settings are read. */
typedef struct axis_task {
    const FT_MM_Var *about;
    const char *name; /* of the font */
    FT_Fixed *values; /* one for each axis, the style's to begin with */
    bool *given;
    runnel_problems *problems;
    const runnel_place *place;
} axis_task;

static void write_tag(FT_ULong tag, char text[5]) {
    for (int i = 0; i < 4; i++)
        text[i] = (char)(tag >> (24 - 8 * i) & 0xFF);
    text[4] = '\0';
}

/* "wght 100 to 900, slnt -10 to 0" in a new block. */
static char *describe_axes(const FT_MM_Var *about) {
    char *text = runnel_copy_text("");
    for (FT_UInt i = 0; i < about->num_axis && text; i++) {
        char tag[5], low[40], high[40];
        write_tag(about->axis[i].tag, tag);
        char *longer = runnel_format_text(
            "%s%s%s %s to %s", text, i ? ", " : "", tag,
            runnel_number_exact((double)about->axis[i].minimum / FIXED_ONE, low, sizeof low),
            runnel_number_exact((double)about->axis[i].maximum / FIXED_ONE, high, sizeof high));
        runnel_free(text);
        text = longer;
    }
    return text;
}

static runnel_status tell_unknown(const axis_task *task, const char *setting) {
    char *axes = describe_axes(task->about);
    if (!axes)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status =
        runnel_problems_add(task->problems, RUNNEL_E_UNKNOWN, task->place,
                            "font '%s' has no axis for '%s'; it has %s", task->name, setting, axes);
    runnel_free(axes);
    return status;
}

static runnel_status set_value(axis_task *task, FT_UInt axis, const char *setting, double value) {
    const FT_Var_Axis *about = &task->about->axis[axis];
    double low = (double)about->minimum / FIXED_ONE, high = (double)about->maximum / FIXED_ONE;
    if (task->given[axis])
        return runnel_problems_add(task->problems, RUNNEL_E_CONFLICT, task->place,
                                   "axis setting '%s': this axis is set twice", setting);
    if (!(value >= low && value <= high)) {
        char low_text[40], high_text[40];
        return runnel_problems_add(task->problems, RUNNEL_E_RANGE, task->place,
                                   "axis setting '%s' is out of the range of font '%s': %s to %s",
                                   setting, task->name,
                                   runnel_number_exact(low, low_text, sizeof low_text),
                                   runnel_number_exact(high, high_text, sizeof high_text));
    }
    task->given[axis] = true;
    task->values[axis] = (FT_Fixed)floor(value * FIXED_ONE + 0.5);
    return RUNNEL_OK;
}

/* One setting "wght=600", without blanks at its ends. */
static runnel_status read_setting(axis_task *task, const char *setting) {
    const char *equals = strchr(setting, '=');
    size_t length = equals ? (size_t)(equals - setting) : 0;
    while (length > 4 && setting[length - 1] == ' ')
        length--;
    double value;
    if (length != 4 ||
        runnel_number_parse(equals + 1 + strspn(equals + 1, " "), NULL, NULL, &value))
        return runnel_problems_add(
            task->problems, RUNNEL_E_SYNTAX, task->place,
            "axis setting '%s' is not of the form 'wght=600': a name of four letters, an equals "
            "sign, a number",
            setting);
    for (FT_UInt i = 0; i < task->about->num_axis; i++) {
        char tag[5];
        write_tag(task->about->axis[i].tag, tag);
        if (strncmp(tag, setting, 4) == 0)
            return set_value(task, i, setting, value);
    }
    return tell_unknown(task, setting);
}

static runnel_status read_settings(axis_task *task, const char *axes) {
    runnel_status worst = RUNNEL_OK;
    for (const char *at = axes;;) {
        at += strspn(at, " ");
        size_t length = strcspn(at, ","), kept = length;
        while (kept && at[kept - 1] == ' ')
            kept--;
        char *setting = runnel_copy_bytes(at, kept);
        if (!setting)
            return RUNNEL_E_NO_MEMORY;
        worst = runnel_worse(worst, read_setting(task, setting));
        runnel_free(setting);
        if (!at[length])
            return worst;
        at += length + 1;
    }
}

/* Hands the values to both libraries. */
static runnel_status apply(const axis_task *task, FT_Face face, hb_font_t *font) {
    FT_UInt count = task->about->num_axis;
    float *design = runnel_resize(NULL, count, sizeof *design);
    if (!design)
        return RUNNEL_E_NO_MEMORY;
    for (FT_UInt i = 0; i < count; i++)
        design[i] = (float)((double)task->values[i] / FIXED_ONE);
    lib.hb_font_set_var_coords_design(font, design, count);
    runnel_free(design);
    int error = lib.FT_Set_Var_Design_Coordinates(face, count, task->values);
    if (!error)
        return RUNNEL_OK;
    return error == FT_Err_Out_Of_Memory
               ? RUNNEL_E_NO_MEMORY
               : runnel_problems_add(task->problems, RUNNEL_E_FONT, task->place,
                                     "the axes of font '%s' cannot be set", task->name);
}

/* The values of the face's style. */
static runnel_status style_values(axis_task *task, FT_Face face) {
    int error = lib.FT_Get_Var_Design_Coordinates(face, task->about->num_axis, task->values);
    if (error == FT_Err_Out_Of_Memory)
        return RUNNEL_E_NO_MEMORY;
    for (FT_UInt i = 0; i < task->about->num_axis; i++) {
        if (error)
            task->values[i] = task->about->axis[i].def;
        /* FreeType 2.12 reads the values of a named style without their sign: -10 is 65526. */
        task->values[i] = (int32_t)((FT_ULong)task->values[i] & 0xFFFFFFFFU);
    }
    return RUNNEL_OK;
}

runnel_status runnel_font_axes_set(const runnel_face *owner, struct FT_LibraryRec_ *library,
                                   struct FT_FaceRec_ *face, struct hb_font_t *font,
                                   const char *axes, runnel_problems *problems,
                                   const runnel_place *place) {
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    FT_MM_Var *about = NULL;
    axis_task task = {.name = runnel_face_name(owner), .problems = problems, .place = place};
    int error =
        FT_HAS_MULTIPLE_MASTERS(face) ? lib.FT_Get_MM_Var(face, &about) : FT_Err_Missing_Module;
    if (runnel_face_starved(owner)) /* FreeType keeps quiet about some failures */
        return RUNNEL_E_NO_MEMORY;
    if (error || !about->num_axis) {
        lib.FT_Done_MM_Var(library, about);
        return axes ? runnel_problems_add(problems, RUNNEL_E_FONT, place,
                                          "font '%s' is not a variable font: '%s' cannot be set",
                                          task.name, axes)
                    : RUNNEL_OK;
    }
    task.about = about;
    task.values = runnel_zeroed(about->num_axis, sizeof *task.values);
    task.given = runnel_zeroed(about->num_axis, sizeof *task.given);
    status = task.values && task.given ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    if (!status)
        status = style_values(&task, face);
    if (!status && axes)
        status = read_settings(&task, axes);
    if (!status)
        status = apply(&task, face, font);
    runnel_free(task.values);
    runnel_free(task.given);
    lib.FT_Done_MM_Var(library, about);
    return status;
}
