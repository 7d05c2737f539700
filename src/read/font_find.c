/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Fonts by name. Families are listed, not matched: fontconfig's matching always answers, with
 * another family if need be, and a sign must not come out in a font that nobody chose.
 */
#include "read/font.h"

#include "base/late.h"
#include "base/memory.h"
#include "read/font_name.h"

#include <fontconfig/fontconfig.h>

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define CALLS(X)                                                                                   \
    X(FcFontList)                                                                                  \
    X(FcFontSetDestroy)                                                                            \
    X(FcObjectSetBuild)                                                                            \
    X(FcObjectSetDestroy)                                                                          \
    X(FcPatternAddString)                                                                          \
    X(FcPatternCreate)                                                                             \
    X(FcPatternDestroy)                                                                            \
    X(FcPatternGetBool)                                                                            \
    X(FcPatternGetInteger)                                                                         \
    X(FcPatternGetString)                                                                          \
    X(FcStrCmpIgnoreCase)
RUNNEL_LATE(CALLS, RUNNEL_LATE_FONTCONFIG);

void runnel_font_file_clear(runnel_font_file *file) {
    runnel_free(file->path);
    runnel_free(file->name);
    *file = (runnel_font_file){0};
}

/* ---- Paths ------------------------------------------------------------------------------------*/

/* The index of a face has 16 bits. */
static bool face_index(const char *digits, long *index) {
    long value = 0;
    for (; *digits; digits++) {
        value = value * 10 + (*digits - '0');
        if (value > 0xFFFF)
            return false;
    }
    *index = value;
    return true;
}

static runnel_status find_path(const char *name, runnel_problems *problems,
                               const runnel_place *place, runnel_font_file *file) {
    struct stat about;
    size_t length = strlen(name);
    long index = 0;
    bool there = stat(name, &about) == 0;
    if (!there && runnel_font_path_length(name) < length) {
        length = runnel_font_path_length(name);
        if (!face_index(name + length + 1, &index))
            return runnel_problems_add(problems, RUNNEL_E_FONT, place,
                                       "font '%s': no collection has a face of that number", name);
    }
    char *path = runnel_copy_bytes(name, length);
    if (!path)
        return RUNNEL_E_NO_MEMORY;
    runnel_status status = RUNNEL_OK;
    if (!there && stat(path, &about) != 0)
        status = runnel_problems_add(problems, RUNNEL_E_NOT_FOUND, place,
                                     "font file '%s' cannot be opened: %s", path, strerror(errno));
    else if (!S_ISREG(about.st_mode))
        status = runnel_problems_add(problems, RUNNEL_E_NOT_FOUND, place,
                                     "font file '%s' is not a file", path);
    if (status) {
        runnel_free(path);
        return status;
    }
    *file = (runnel_font_file){path, index, NULL};
    return RUNNEL_OK;
}

/* ---- Families ---------------------------------------------------------------------------------*/

static const char *text_at(const FcPattern *font, const char *object, int n) {
    FcChar8 *value = NULL;
    return lib.FcPatternGetString(font, object, n, &value) == FcResultMatch ? (const char *)value
                                                                            : NULL;
}

static int number_of(const FcPattern *font, const char *object, int otherwise) {
    int value;
    return lib.FcPatternGetInteger(font, object, 0, &value) == FcResultMatch ? value : otherwise;
}

static bool flag_of(const FcPattern *font, const char *object) {
    FcBool value = FcFalse;
    return lib.FcPatternGetBool(font, object, 0, &value) == FcResultMatch && value;
}

/* All faces of a family, or of all families for NULL. */
static FcFontSet *list_faces(const char *family) {
    FcPattern *wanted = lib.FcPatternCreate();
    FcObjectSet *objects =
        lib.FcObjectSetBuild(FC_FAMILY, FC_STYLE, FC_FILE, FC_INDEX, FC_WEIGHT, FC_WIDTH, FC_SLANT,
                             FC_OUTLINE, FC_VARIABLE, FC_FONTFORMAT, (char *)NULL);
    FcFontSet *faces = NULL;
    if (wanted && objects &&
        (!family || lib.FcPatternAddString(wanted, FC_FAMILY, (const FcChar8 *)family)))
        faces = lib.FcFontList(NULL, wanted, objects);
    if (objects)
        lib.FcObjectSetDestroy(objects);
    if (wanted)
        lib.FcPatternDestroy(wanted);
    return faces;
}

/* Whether the face has outlines in a format that can be shaped. */
static bool usable(const FcPattern *face) {
    const char *format = text_at(face, FC_FONTFORMAT, 0);
    return flag_of(face, FC_OUTLINE) && format &&
           (strcmp(format, "TrueType") == 0 || strcmp(format, "CFF") == 0);
}

/* A variable font stands in the list once as a whole and once for each named style; the whole has
 * no style of its own. */
static bool nameless(const FcPattern *face) {
    return flag_of(face, FC_VARIABLE) || !text_at(face, FC_FILE, 0);
}

static bool is_family(const FcPattern *face, const char *family) {
    const char *name;
    for (int i = 0; (name = text_at(face, FC_FAMILY, i)); i++)
        if (lib.FcStrCmpIgnoreCase((const FcChar8 *)name, (const FcChar8 *)family) == 0)
            return true;
    return false;
}

static char lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* "SemiBold", "Semi Bold" and "semi-bold" are one style. */
static bool same_style(const char *one, const char *other) {
    for (;; one++, other++) {
        while (*one == ' ' || *one == '-')
            one++;
        while (*other == ' ' || *other == '-')
            other++;
        if (lower(*one) != lower(*other))
            return false;
        if (!*one)
            return true;
    }
}

/* Place of a style among the names of the face's style, or -1. */
static int style_place(const FcPattern *face, const char *style) {
    const char *name;
    for (int i = 0; (name = text_at(face, FC_STYLE, i)); i++)
        if (same_style(name, style) ||
            lib.FcStrCmpIgnoreCase((const FcChar8 *)name, (const FcChar8 *)style) == 0)
            return i;
    return -1;
}

/* Whether a face is more regular than another; see runnel_font_find. */
static bool more_regular(const FcPattern *one, const FcPattern *other) {
    int keys[][2] = {
        {!usable(one), !usable(other)},
        {abs(number_of(one, FC_SLANT, 0)), abs(number_of(other, FC_SLANT, 0))},
        {abs(number_of(one, FC_WIDTH, FC_WIDTH_NORMAL) - FC_WIDTH_NORMAL),
         abs(number_of(other, FC_WIDTH, FC_WIDTH_NORMAL) - FC_WIDTH_NORMAL)},
        {abs(number_of(one, FC_WEIGHT, FC_WEIGHT_REGULAR) - FC_WEIGHT_REGULAR),
         abs(number_of(other, FC_WEIGHT, FC_WEIGHT_REGULAR) - FC_WEIGHT_REGULAR)},
    };
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (keys[i][0] != keys[i][1])
            return keys[i][0] < keys[i][1];
    /* Sizes of design are numbered upwards, and large letters are what is carved. */
    int order = strcmp(text_at(one, FC_FILE, 0), text_at(other, FC_FILE, 0));
    return order ? order > 0 : number_of(one, FC_INDEX, 0) < number_of(other, FC_INDEX, 0);
}

/* The most regular face of the family, of the style if one is asked for; NULL when there is none.
 */
static const FcPattern *best_face(const FcFontSet *faces, const char *family, const char *style) {
    const FcPattern *best = NULL;
    for (int i = 0; i < faces->nfont; i++) {
        const FcPattern *face = faces->fonts[i];
        if (nameless(face) || !is_family(face, family) || (style && style_place(face, style) < 0))
            continue;
        if (!best || more_regular(face, best))
            best = face;
    }
    return best;
}

/* ---- What could have been meant ---------------------------------------------------------------*/

/* All values of a property of the usable faces, borrowed from them. */
static const char **all_names(const FcFontSet *faces, const char *object, int most, size_t *count) {
    size_t capacity = 0;
    const char **names = NULL, *name;
    *count = 0;
    for (int i = 0; i < faces->nfont; i++) {
        if (nameless(faces->fonts[i]) || !usable(faces->fonts[i]))
            continue;
        for (int n = 0; n < most && (name = text_at(faces->fonts[i], object, n)); n++) {
            if (runnel_reserve(&names, &capacity, *count + 1, sizeof *names)) {
                runnel_free(names);
                return NULL;
            }
            names[(*count)++] = name;
        }
    }
    return names ? names : runnel_zeroed(1, sizeof *names);
}

static runnel_status tell_no_family(const char *family, runnel_problems *problems,
                                    const runnel_place *place) {
    runnel_status status = RUNNEL_E_NO_MEMORY;
    size_t count = 0;
    char *nearest = NULL;
    const char **names = NULL;
    FcFontSet *faces = list_faces(NULL);
    if (!faces)
        goto cleanup;
    names = all_names(faces, FC_FAMILY, 1000, &count);
    nearest = names ? runnel_nearest_names(family, names, count) : NULL;
    if (!nearest)
        goto cleanup;
    status = runnel_problems_add(
        problems, RUNNEL_E_FONT, place, "no font family '%s' is installed; %s%s", family,
        *nearest ? "near to it: " : "give a family's name or the path of a font file", nearest);
cleanup:
    runnel_free(nearest);
    runnel_free(names);
    if (faces)
        lib.FcFontSetDestroy(faces);
    return status;
}

static int by_text(const void *one, const void *other) {
    return strcmp(*(const char *const *)one, *(const char *const *)other);
}

/* The names, each once and sorted, as "'this', 'that'", or bare for the list of fonts. */
static char *join_names(const char **names, size_t count, const char *quote) {
    if (count)
        qsort(names, count, sizeof *names, by_text);
    char *text = runnel_copy_text("");
    for (size_t i = 0; i < count && text; i++) {
        if (i && strcmp(names[i], names[i - 1]) == 0)
            continue;
        char *longer =
            runnel_format_text("%s%s%s%s%s", text, *text ? ", " : "", quote, names[i], quote);
        runnel_free(text);
        text = longer;
    }
    return text;
}

static runnel_status tell_no_style(const FcFontSet *faces, const char *family, const char *style,
                                   runnel_problems *problems, const runnel_place *place) {
    runnel_status status = RUNNEL_E_NO_MEMORY;
    size_t count = 0;
    char *nearest = NULL, *all = NULL;
    const char **names = all_names(faces, FC_STYLE, 1, &count);
    if (names)
        all = join_names(names, count, "'");
    if (all)
        nearest = runnel_nearest_names(style, names, count);
    if (nearest)
        status = runnel_problems_add(
            problems, RUNNEL_E_FONT, place, "font family '%s' has no style '%s'; %s: %s", family,
            style, *nearest ? "near to it" : "its styles", *nearest ? nearest : all);
    runnel_free(nearest);
    runnel_free(all);
    runnel_free(names);
    return status;
}

/* ---- By name ----------------------------------------------------------------------------------*/

static runnel_status keep_face(const FcPattern *face, const char *style, runnel_font_file *file) {
    const char *name = text_at(face, FC_STYLE, style ? style_place(face, style) : 0);
    runnel_font_file found = {runnel_copy_text(text_at(face, FC_FILE, 0)),
                              number_of(face, FC_INDEX, 0),
                              runnel_format_text("%s%s%s", text_at(face, FC_FAMILY, 0),
                                                 name ? " " : "", name ? name : "")};
    if (!found.path || !found.name) {
        runnel_font_file_clear(&found);
        return RUNNEL_E_NO_MEMORY;
    }
    *file = found;
    return RUNNEL_OK;
}

static runnel_status find_family(const char *family, const char *style, runnel_problems *problems,
                                 const runnel_place *place, runnel_font_file *file) {
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    FcFontSet *faces = list_faces(family);
    if (!faces)
        return RUNNEL_E_NO_MEMORY;
    const FcPattern *face = best_face(faces, family, style);
    if (face)
        status = keep_face(face, style, file);
    else if (best_face(faces, family, NULL))
        status = tell_no_style(faces, family, style, problems, place);
    else
        status = tell_no_family(family, problems, place);
    lib.FcFontSetDestroy(faces);
    return status;
}

static char *copy_trimmed(const char *text, size_t length) {
    while (length && *text == ' ') {
        text++;
        length--;
    }
    while (length && text[length - 1] == ' ')
        length--;
    return runnel_copy_bytes(text, length);
}

runnel_status runnel_font_find(const char *name, runnel_problems *problems,
                               const runnel_place *place, runnel_font_file *file) {
    if (!name || !name[strspn(name, " ")])
        return runnel_problems_add(problems, RUNNEL_E_MISSING, place,
                                   "no font is given: a family, 'Family:Style' or the path of a "
                                   "font file is needed");
    if (runnel_font_is_file(name))
        return find_path(name, problems, place, file);
    const char *colon = strchr(name, ':');
    char *family = copy_trimmed(name, colon ? (size_t)(colon - name) : strlen(name));
    char *style = colon ? copy_trimmed(colon + 1, strlen(colon + 1)) : NULL;
    runnel_status status = RUNNEL_E_NO_MEMORY;
    if (family && (style || !colon))
        status = find_family(family, style && *style ? style : NULL, problems, place, file);
    runnel_free(family);
    runnel_free(style);
    return status;
}

/* ---- All fonts --------------------------------------------------------------------------------*/

static int by_family(const void *one, const void *other) {
    const FcPattern *a = *(FcPattern *const *)one, *b = *(FcPattern *const *)other;
    const char *name_a = text_at(a, FC_FAMILY, 0), *name_b = text_at(b, FC_FAMILY, 0);
    int order = lib.FcStrCmpIgnoreCase((const FcChar8 *)name_a, (const FcChar8 *)name_b);
    return order ? order : strcmp(name_a, name_b);
}

/* Moves the faces that can be listed to the front and sorts them by family. */
static int sort_faces(FcFontSet *faces) {
    int count = 0;
    for (int i = 0; i < faces->nfont; i++) {
        FcPattern *face = faces->fonts[i];
        if (nameless(face) || !usable(face) || !text_at(face, FC_FAMILY, 0))
            continue;
        faces->fonts[i] = faces->fonts[count];
        faces->fonts[count++] = face;
    }
    if (count)
        qsort(faces->fonts, (size_t)count, sizeof *faces->fonts, by_family);
    return count;
}

/* One family: its faces stand side by side. */
static runnel_status fill_entry(FcPattern **faces, int count, runnel_font_entry *entry) {
    FcFontSet family = {count, count, faces};
    const char *name = text_at(faces[0], FC_FAMILY, 0);
    size_t style_count = 0;
    const char **styles = all_names(&family, FC_STYLE, 1, &style_count);
    entry->family = runnel_copy_text(name);
    entry->file = runnel_copy_text(text_at(best_face(&family, name, NULL), FC_FILE, 0));
    entry->styles = styles ? join_names(styles, style_count, "") : NULL;
    runnel_free(styles);
    return entry->family && entry->file && entry->styles ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
}

runnel_status runnel_fonts_list(runnel_font_entry **entries, size_t *count) {
    runnel_status status = runnel_late_load(&late);
    if (status)
        return status;
    FcFontSet *faces = list_faces(NULL);
    if (!faces)
        return RUNNEL_E_NO_MEMORY;
    int face_count = sort_faces(faces);
    size_t found = 0;
    runnel_font_entry *list = runnel_zeroed((size_t)face_count + 1, sizeof *list);
    status = list ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    for (int first = 0, next; first < face_count && !status; first = next) {
        for (next = first + 1; next < face_count; next++)
            if (by_family(&faces->fonts[first], &faces->fonts[next]) != 0)
                break;
        status = fill_entry(faces->fonts + first, next - first, &list[found++]);
    }
    lib.FcFontSetDestroy(faces);
    if (status) {
        runnel_fonts_free(list, found);
        return status;
    }
    *entries = list;
    *count = found;
    return RUNNEL_OK;
}

void runnel_fonts_free(runnel_font_entry *entries, size_t count) {
    for (size_t i = 0; entries && i < count; i++) {
        runnel_free(entries[i].family);
        runnel_free(entries[i].styles);
        runnel_free(entries[i].file);
    }
    runnel_free(entries);
}
