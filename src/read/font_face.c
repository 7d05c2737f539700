/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One open face: FreeType for its outlines, HarfBuzz's view of it for shaping.
 *
 * Outlines are loaded at as many pixels an em as the em has units. One font unit is then 64 of
 * FreeType's positions, and nothing is rounded to whole units as FT_LOAD_NO_SCALE would do it: the
 * parts of composite glyphs and the instances of variable fonts keep their sixty-fourths.
 */
#include "read/font.h"
#include "read/font_axes.h"

#include "base/late.h"
#include "base/memory.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_MODULE_H
#include FT_OUTLINE_H
#include FT_TRUETYPE_TABLES_H

#include <hb-ot.h>
#include <hb.h>

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define CALLS(X)                                                                                   \
    X(FT_Add_Default_Modules)                                                                      \
    X(FT_Done_Face)                                                                                \
    X(FT_Done_Library)                                                                             \
    X(FT_Load_Glyph)                                                                               \
    X(FT_Load_Sfnt_Table)                                                                          \
    X(FT_New_Library)                                                                              \
    X(FT_Open_Face)                                                                                \
    X(FT_Outline_Decompose)                                                                        \
    X(FT_Set_Pixel_Sizes)                                                                          \
    X(hb_blob_create)                                                                              \
    X(hb_face_create_for_tables)                                                                   \
    X(hb_face_destroy)                                                                             \
    X(hb_font_create)                                                                              \
    X(hb_font_destroy)                                                                             \
    X(hb_font_get_empty)                                                                           \
    X(hb_font_get_h_extents)                                                                       \
    X(hb_font_get_nominal_glyph)                                                                   \
    X(hb_font_set_scale)                                                                           \
    X(hb_ot_metrics_get_position)
RUNNEL_LATE(CALLS, RUNNEL_LATE_FREETYPE, RUNNEL_LATE_HARFBUZZ);

/** FreeType's and HarfBuzz's positions for one font unit. */
#define POSITIONS_PER_UNIT 64

/** Stands before each block that FreeType has. */
typedef struct block {
    struct block *before, *after;
} block;

struct runnel_face {
    struct FT_MemoryRec_ memory;
    block *blocks;
    bool starved;
    FILE *file;
    FT_StreamRec stream;
    FT_Library library;
    FT_Face face;
    hb_font_t *font;
    char *name;
    runnel_glyph *glyphs;
    size_t count, capacity;
    uint32_t *slots; /* of each glyph of the face: its place in `glyphs` + 1, or 0 */
};

/* ---- Memory -----------------------------------------------------------------------------------*/

/*
 * FreeType's blocks are kept in a list. After an allocation has failed it passes over some failures
 * (a module or a table left out), and it may crash when a variable font half read is closed; so
 * each failure is noted, and then the blocks are freed here and FreeType is not called again.
 */
static void *take_other(FT_Memory memory, long bytes, long more, void *data) {
    runnel_face *face = memory->user;
    (void)bytes;
    block *moved = NULL;
    if (more >= 0 && (size_t)more <= (size_t)-1 - sizeof *moved)
        moved = runnel_resize(data ? (block *)data - 1 : NULL, (size_t)more + sizeof *moved, 1);
    if (!moved) {
        face->starved = true;
        return NULL;
    }
    if (!data) {
        moved->before = NULL;
        moved->after = face->blocks;
    }
    if (moved->before)
        moved->before->after = moved;
    else
        face->blocks = moved;
    if (moved->after)
        moved->after->before = moved;
    return moved + 1;
}

static void *take(FT_Memory memory, long bytes) {
    return take_other(memory, 0, bytes, NULL);
}

static void give_back(FT_Memory memory, void *data) {
    runnel_face *face = memory->user;
    if (!data)
        return;
    block *old = (block *)data - 1;
    if (old->before)
        old->before->after = old->after;
    else
        face->blocks = old->after;
    if (old->after)
        old->after->before = old->before;
    runnel_free(old);
}

static void give_all_back(runnel_face *face) {
    while (face->blocks) {
        block *old = face->blocks;
        face->blocks = old->after;
        runnel_free(old);
    }
}

bool runnel_face_starved(const runnel_face *face) {
    return face->starved;
}

/* ---- HarfBuzz's view --------------------------------------------------------------------------*/

/* A table of the font, read through FreeType, so that compressed files can be shaped as well. */
static hb_blob_t *read_table(hb_face_t *unused, hb_tag_t tag, void *user) {
    (void)unused;
    runnel_face *face = user;
    FT_ULong bytes = 0;
    if (face->starved || lib.FT_Load_Sfnt_Table(face->face, tag, 0, NULL, &bytes))
        return NULL;
    FT_Byte *data = runnel_resize(NULL, bytes, 1);
    face->starved = face->starved || !data;
    if (!data || lib.FT_Load_Sfnt_Table(face->face, tag, 0, data, &bytes)) {
        runnel_free(data);
        return NULL;
    }
    return lib.hb_blob_create((const char *)data, (unsigned)bytes, HB_MEMORY_MODE_WRITABLE, data,
                              runnel_free);
}

static runnel_status open_shaper(runnel_face *face) {
    hb_face_t *tables = lib.hb_face_create_for_tables(read_table, face, NULL);
    face->font = lib.hb_font_create(tables);
    lib.hb_face_destroy(tables);
    if (face->font == lib.hb_font_get_empty())
        return RUNNEL_E_NO_MEMORY;
    int scale = face->face->units_per_EM * POSITIONS_PER_UNIT;
    lib.hb_font_set_scale(face->font, scale, scale);
    return RUNNEL_OK;
}

struct hb_font_t *runnel_face_font(runnel_face *face) {
    return face->font;
}

/* ---- Opening ----------------------------------------------------------------------------------*/

/* As FreeType wants it: nothing to be read means a seek, which answers 0 for success. */
static unsigned long read_file(FT_Stream stream, unsigned long offset, unsigned char *buffer,
                               unsigned long count) {
    FILE *file = stream->descriptor.pointer;
    if (offset > stream->size || fseek(file, (long)offset, SEEK_SET))
        return count ? 0 : 1;
    return count ? fread(buffer, 1, count, file) : 0;
}

/* Opened here and not by FreeType, so that it is closed whatever happens. */
static runnel_status open_file(runnel_face *face, const char *path, runnel_problems *problems,
                               const runnel_place *place) {
    face->file = fopen(path, "rb");
    long size = face->file && fseek(face->file, 0, SEEK_END) == 0 ? ftell(face->file) : -1;
    if (size < 0)
        return runnel_problems_add(problems, RUNNEL_E_NOT_FOUND, place,
                                   "font file '%s' cannot be opened: %s", path, strerror(errno));
    face->stream = (FT_StreamRec){
        .size = (unsigned long)size, .descriptor.pointer = face->file, .read = read_file};
    return RUNNEL_OK;
}

static int open_index(runnel_face *face, long index, FT_Face *opened) {
    FT_Open_Args from = {.flags = FT_OPEN_STREAM, .stream = &face->stream};
    *opened = NULL;
    return lib.FT_Open_Face(face->library, &from, index, opened);
}

static runnel_status open_library(runnel_face *face) {
    face->memory = (struct FT_MemoryRec_){face, take, give_back, take_other};
    if (lib.FT_New_Library(&face->memory, &face->library))
        return RUNNEL_E_NO_MEMORY;
    lib.FT_Add_Default_Modules(face->library);
    return face->starved ? RUNNEL_E_NO_MEMORY : RUNNEL_OK;
}

static runnel_status tell_unopened(runnel_face *face, const runnel_font_file *file,
                                   runnel_problems *problems, const runnel_place *place) {
    FT_Face whole;
    if (face->starved)
        return RUNNEL_E_NO_MEMORY;
    if (file->index && open_index(face, -1, &whole) == 0) {
        long faces = whole->num_faces;
        lib.FT_Done_Face(whole);
        return runnel_problems_add(problems, RUNNEL_E_FONT, place,
                                   "font file '%s' has no face %ld; its faces are 0 to %ld",
                                   file->path, file->index & 0xFFFF, faces - 1);
    }
    if (face->starved)
        return RUNNEL_E_NO_MEMORY;
    return runnel_problems_add(problems, RUNNEL_E_FONT, place,
                               "'%s' is not a font that can be read", file->path);
}

static runnel_status open_outlines(runnel_face *face, const runnel_font_file *file,
                                   runnel_problems *problems, const runnel_place *place) {
    if (open_index(face, file->index, &face->face))
        return tell_unopened(face, file, problems, place);
    if (face->starved)
        return RUNNEL_E_NO_MEMORY;
    if (!FT_IS_SFNT(face->face))
        return runnel_problems_add(problems, RUNNEL_E_FONT, place,
                                   "font '%s' is neither TrueType nor OpenType", file->path);
    if (!FT_IS_SCALABLE(face->face) || !face->face->units_per_EM)
        return runnel_problems_add(problems, RUNNEL_E_FONT, place,
                                   "font '%s' has pictures of its letters but no outlines",
                                   file->path);
    if (lib.FT_Set_Pixel_Sizes(face->face, face->face->units_per_EM, face->face->units_per_EM))
        return face->starved ? RUNNEL_E_NO_MEMORY
                             : runnel_problems_add(problems, RUNNEL_E_FONT, place,
                                                   "font '%s' cannot be scaled", file->path);
    face->slots = runnel_zeroed((size_t)face->face->num_glyphs + 1, sizeof *face->slots);
    return face->slots ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
}

static runnel_status name_face(runnel_face *face, const runnel_font_file *file, const char *axes) {
    const char *family = face->face->family_name, *style = face->face->style_name;
    char *plain = file->name ? runnel_copy_text(file->name)
                             : runnel_format_text("%s%s%s", family ? family : "unnamed",
                                                  style ? " " : "", style ? style : "");
    face->name =
        plain && axes ? runnel_format_text("%s (%s)", plain, axes) : runnel_copy_text(plain);
    runnel_free(plain);
    return face->name ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
}

runnel_status runnel_face_open(const runnel_font_file *file, const runnel_text *text,
                               runnel_problems *problems, const runnel_place *place,
                               runnel_face **face) {
    const char *axes = text->axes && text->axes[strspn(text->axes, " ")] ? text->axes : NULL;
    const runnel_place *font_place = runnel_font_place(text, place);
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    runnel_face *fresh = runnel_zeroed(1, sizeof *fresh);
    status = fresh ? open_file(fresh, file->path, problems, font_place) : RUNNEL_E_NO_MEMORY;
    if (!status)
        status = open_library(fresh);
    if (!status)
        status = open_outlines(fresh, file, problems, font_place);
    if (!status)
        status = name_face(fresh, file, NULL);
    if (!status)
        status = open_shaper(fresh);
    if (!status)
        status = runnel_font_axes_set(fresh, fresh->library, fresh->face, fresh->font, axes,
                                      problems, text->axes_place ? text->axes_place : place);
    if (!status && axes) {
        runnel_free(fresh->name);
        status = name_face(fresh, file, axes);
    }
    if (fresh && fresh->starved)
        status = RUNNEL_E_NO_MEMORY;
    if (status)
        runnel_face_free(fresh);
    else
        *face = fresh;
    return status;
}

void runnel_face_free(runnel_face *face) {
    if (!face)
        return;
    for (size_t i = 0; i < face->count; i++) {
        runnel_free(face->glyphs[i].steps);
        runnel_contours_clear(&face->glyphs[i].flat);
    }
    runnel_free(face->glyphs);
    runnel_free(face->slots);
    runnel_free(face->name);
    lib.hb_font_destroy(face->font);
    if (face->library && !face->starved)
        lib.FT_Done_Library(face->library); /* closes the face as well */
    give_all_back(face);
    if (face->file)
        fclose(face->file);
    runnel_free(face);
}

const char *runnel_face_name(const runnel_face *face) {
    return face->name;
}

/* ---- Outlines ---------------------------------------------------------------------------------*/

static runnel_unit_point point_of(const FT_Vector *vector) {
    return (runnel_unit_point){(double)vector->x / POSITIONS_PER_UNIT,
                               (double)vector->y / POSITIONS_PER_UNIT};
}

static int add_step(runnel_glyph *glyph, runnel_step_kind kind, const FT_Vector *a,
                    const FT_Vector *b, const FT_Vector *c) {
    if (runnel_reserve(&glyph->steps, &glyph->capacity, glyph->count + 1, sizeof *glyph->steps))
        return FT_Err_Out_Of_Memory;
    glyph->steps[glyph->count++] =
        (runnel_step){kind, {point_of(a), point_of(b ? b : a), point_of(c ? c : a)}};
    return 0;
}

static int move_to(const FT_Vector *to, void *glyph) {
    return add_step(glyph, RUNNEL_STEP_MOVE, to, NULL, NULL);
}

static int line_to(const FT_Vector *to, void *glyph) {
    return add_step(glyph, RUNNEL_STEP_LINE, to, NULL, NULL);
}

static int quadratic_to(const FT_Vector *control, const FT_Vector *to, void *glyph) {
    return add_step(glyph, RUNNEL_STEP_QUADRATIC, control, to, NULL);
}

static int cubic_to(const FT_Vector *control1, const FT_Vector *control2, const FT_Vector *to,
                    void *glyph) {
    return add_step(glyph, RUNNEL_STEP_CUBIC, control1, control2, to);
}

static void grow_box(runnel_glyph *glyph, runnel_unit_point p) {
    glyph->min_x_units = fmin(glyph->min_x_units, p.x_units);
    glyph->min_y_units = fmin(glyph->min_y_units, p.y_units);
    glyph->max_x_units = fmax(glyph->max_x_units, p.x_units);
    glyph->max_y_units = fmax(glyph->max_y_units, p.y_units);
}

static double along(double p0, double p1, double p2, double p3, double t) {
    double s = 1 - t;
    return s * s * s * p0 + 3 * s * s * t * p1 + 3 * s * t * t * p2 + t * t * t * p3;
}

/* The point of the cubic p at t, if it lies inside the curve. */
static void grow_at(runnel_glyph *glyph, const runnel_unit_point p[4], double t) {
    if (!(t > 0 && t < 1))
        return;
    grow_box(glyph,
             (runnel_unit_point){along(p[0].x_units, p[1].x_units, p[2].x_units, p[3].x_units, t),
                                 along(p[0].y_units, p[1].y_units, p[2].y_units, p[3].y_units, t)});
}

/* Where one coordinate of a cubic turns: a t^2 - 2 b t + c = 0. */
static void grow_at_turns(runnel_glyph *glyph, const runnel_unit_point p[4], double p0, double p1,
                          double p2, double p3) {
    double a = p3 - 3 * p2 + 3 * p1 - p0, b = 2 * p1 - p0 - p2, c = p1 - p0;
    double root = b * b - a * c;
    if (root < 0)
        return;
    /* The larger in amount first, so that neither root is lost by cancellation. */
    double q = b + (b < 0 ? -sqrt(root) : sqrt(root));
    if (a != 0)
        grow_at(glyph, p, q / a);
    if (q != 0)
        grow_at(glyph, p, c / q);
}

/* Both kinds of curve as cubics: a quadratic one raised in degree is the same curve. */
static void measure_curve(runnel_glyph *glyph, runnel_unit_point start, const runnel_step *step) {
    const runnel_unit_point *q = step->points;
    runnel_unit_point p[4] = {start, q[0], q[1], q[2]};
    if (step->kind == RUNNEL_STEP_QUADRATIC) {
        p[1] = (runnel_unit_point){start.x_units + (q[0].x_units - start.x_units) * 2 / 3,
                                   start.y_units + (q[0].y_units - start.y_units) * 2 / 3};
        p[2] = (runnel_unit_point){q[1].x_units + (q[0].x_units - q[1].x_units) * 2 / 3,
                                   q[1].y_units + (q[0].y_units - q[1].y_units) * 2 / 3};
        p[3] = q[1];
    }
    grow_at_turns(glyph, p, p[0].x_units, p[1].x_units, p[2].x_units, p[3].x_units);
    grow_at_turns(glyph, p, p[0].y_units, p[1].y_units, p[2].y_units, p[3].y_units);
}

static void measure(runnel_glyph *glyph) {
    static const int ends[] = {[RUNNEL_STEP_MOVE] = 0,
                               [RUNNEL_STEP_LINE] = 0,
                               [RUNNEL_STEP_QUADRATIC] = 1,
                               [RUNNEL_STEP_CUBIC] = 2};
    runnel_unit_point at = {0, 0};
    for (size_t i = 0; i < glyph->count; i++) {
        const runnel_step *step = &glyph->steps[i];
        runnel_unit_point end = step->points[ends[step->kind]];
        grow_box(glyph, end);
        if (step->kind >= RUNNEL_STEP_QUADRATIC)
            measure_curve(glyph, at, step);
        at = end;
    }
}

static runnel_status load(runnel_face *face, uint32_t index, runnel_glyph *glyph) {
    static const FT_Outline_Funcs steps = {move_to, line_to, quadratic_to, cubic_to, 0, 0};
    *glyph = (runnel_glyph){.min_x_units = INFINITY,
                            .min_y_units = INFINITY,
                            .max_x_units = -INFINITY,
                            .max_y_units = -INFINITY};
    if (face->starved)
        return RUNNEL_E_NO_MEMORY;
    FT_Int32 flags = FT_LOAD_NO_HINTING | FT_LOAD_NO_BITMAP | FT_LOAD_IGNORE_TRANSFORM;
    int error = lib.FT_Load_Glyph(face->face, index, flags);
    if (!error && face->face->glyph->format != FT_GLYPH_FORMAT_OUTLINE)
        error = FT_Err_Invalid_Glyph_Format;
    if (!error)
        error = lib.FT_Outline_Decompose(&face->face->glyph->outline, &steps, glyph);
    if (error || face->starved) {
        runnel_free(glyph->steps);
        return error == FT_Err_Out_Of_Memory || face->starved ? RUNNEL_E_NO_MEMORY : RUNNEL_E_FONT;
    }
    measure(glyph);
    return RUNNEL_OK;
}

runnel_status runnel_face_glyph(runnel_face *face, uint32_t glyph, runnel_glyph **outline) {
    if (glyph >= (size_t)face->face->num_glyphs)
        return RUNNEL_E_FONT;
    if (!face->slots[glyph]) {
        if (runnel_reserve(&face->glyphs, &face->capacity, face->count + 1, sizeof *face->glyphs))
            return RUNNEL_E_NO_MEMORY;
        runnel_status status = load(face, glyph, &face->glyphs[face->count]);
        if (status)
            return status;
        face->slots[glyph] = (uint32_t)++face->count;
    }
    *outline = &face->glyphs[face->slots[glyph] - 1];
    return RUNNEL_OK;
}

/* ---- Measures of the face ---------------------------------------------------------------------*/

runnel_status runnel_face_cap_height(runnel_face *face, double *cap_height_units) {
    hb_codepoint_t letter;
    hb_position_t stated;
    *cap_height_units = 0;
    if (lib.hb_font_get_nominal_glyph(face->font, 'H', &letter) && letter) {
        runnel_glyph *outline;
        runnel_status status = runnel_face_glyph(face, letter, &outline);
        if (status)
            return status;
        if (outline->max_y_units > outline->min_y_units) {
            *cap_height_units = outline->max_y_units - outline->min_y_units;
            return RUNNEL_OK;
        }
    }
    if (lib.hb_ot_metrics_get_position(face->font, HB_OT_METRICS_TAG_CAP_HEIGHT, &stated) &&
        stated > 0)
        *cap_height_units = (double)stated / POSITIONS_PER_UNIT;
    return face->starved ? RUNNEL_E_NO_MEMORY : RUNNEL_OK;
}

double runnel_face_line_height(runnel_face *face) {
    hb_font_extents_t extents;
    double height = 0;
    if (lib.hb_font_get_h_extents(face->font, &extents))
        height = (double)extents.ascender - extents.descender + extents.line_gap;
    /* Six fifths of the em are what most fonts state. */
    return height > 0 ? height / POSITIONS_PER_UNIT : 1.2 * face->face->units_per_EM;
}
