/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/yaml_tree.h"

#include "base/slice.h"
#include "base/utf8.h"

#include <stdint.h>
#include <string.h>

/* A walk over text with lines and columns counted as YAML counts them. */
typedef struct cursor {
    const char *text;
    size_t length, at;
    size_t line, column;
} cursor;

/* The character at the cursor, without reading behind the end. */
static uint32_t peek(const cursor *here, size_t *bytes) {
    char few[5] = {0};
    size_t left = here->length - here->at;
    memcpy(few, here->text + here->at, left < 4 ? left : 4);
    uint32_t point = runnel_utf8_next(few, bytes);
    if (!*bytes)
        *bytes = 1;
    return point;
}

static bool ends_line(const cursor *here, uint32_t point, size_t bytes) {
    size_t next = here->at + bytes;
    if (point == '\r')
        return next >= here->length || here->text[next] != '\n';
    return point == '\n' || point == 0x85 || point == 0x2028 || point == 0x2029;
}

static void step(cursor *here) {
    size_t bytes;
    uint32_t point = peek(here, &bytes);
    bool ends = ends_line(here, point, bytes);
    here->at += bytes;
    here->column = ends ? 1 : here->column + 1;
    here->line += ends;
}

/* ---- Bytes ----------------------------------------------------------------------------------- */

static runnel_status tell_bytes(const cursor *here, uint32_t point, const runnel_place *place,
                                runnel_problems *problems) {
    unsigned byte = (unsigned char)here->text[here->at];
    if (!point)
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place,
                                   "a zero byte: this is not a text file");
    if (point >> 11 == 0x1B)
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place,
                                   "the byte 0x%02X is not UTF-8; save the file as UTF-8 text",
                                   byte);
    return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place,
                               "the control character U+%04X cannot stand in a job file",
                               (unsigned)point);
}

/* The characters that YAML lets stand in a file, and of those that are not text none. */
static bool is_text(uint32_t point) {
    if (point < 0x20)
        return point == '\t' || point == '\n' || point == '\r';
    if (point < 0xA0)
        return point < 0x7F || point == 0x85;
    return (point < 0xD800 || point > 0xDFFF) && point != 0xFEFF && point != 0xFFFE &&
           point != 0xFFFF;
}

runnel_status runnel_yaml_check_bytes(const char *text, size_t length, const char *file,
                                      runnel_problems *problems) {
    cursor here = {text, length, 0, 1, 1};
    if (length >= 2 && (!memcmp(text, "\xFF\xFE", 2) || !memcmp(text, "\xFE\xFF", 2))) {
        runnel_place place = {.file = file, .line = 1, .column = 1};
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, &place,
                                   "the file is UTF-16; save it as UTF-8 text");
    }
    while (here.at < length) {
        size_t bytes;
        uint32_t point = peek(&here, &bytes);
        if (!is_text(point)) {
            runnel_place place = {.file = file, .line = here.line, .column = here.column};
            return tell_bytes(&here, point, &place, problems);
        }
        step(&here);
    }
    return RUNNEL_OK;
}

/* ---- The parser's findings ------------------------------------------------------------------- */

#define INDENT "check the indentation of this line and of the lines before it"
#define QUOTES "put a text that holds it in quotes"
#define ESCAPE "a text with '\\' goes into single quotes"
#define HERE   0, 0
#define BEGUN  1, 0
#define LINE   0, 1
#define BOTH   1, 1

/* Part of what the parser says and what we say. Then whether the place where the thing began tells
 * the reader more than the one where the parser gave up, and whether the whole line is shown and
 * not what follows the place. The first that fits is taken. */
static const struct finding {
    const char *said;
    const char *words;
    bool begun, line;
} findings[] = {
    {"could not find expected ':'", "a key must be followed by ':' and a blank", BEGUN},
    {"mapping values are not allowed",
     "a key cannot stand here; " INDENT ", and put a text that holds ': ' in quotes", LINE},
    {"mapping keys are not allowed", "a key cannot stand here; " INDENT, LINE},
    {"block sequence entries are not allowed",
     "a list item ('- ') cannot stand here; start it on a line of its own", LINE},
    {"did not find expected key", "a key is expected here; " INDENT, HERE},
    {"did not find expected '-' indicator", "a list item ('- ') is expected here; " INDENT, HERE},
    {"did not find expected <document start>", "a key is expected here; " INDENT, HERE},
    {"found unexpected end of stream", "the quote that starts here is not closed", BEGUN},
    {"found unexpected document indicator", "the quote that starts here is not closed", BEGUN},
    {"did not find expected ',' or ']'", "',' or ']' is missing in the list that starts here",
     BEGUN},
    {"did not find expected ',' or '}'", "',' or '}' is missing in the mapping that starts here",
     BEGUN},
    {"found unknown escape character", "an unknown sequence after '\\'; " ESCAPE, HERE},
    {"hexdecimal number", "a wrong number after '\\'; " ESCAPE, HERE},
    {"invalid Unicode character", "a wrong number after '\\'; " ESCAPE, HERE},
    {"did not find expected alphabetic", "'&' and '*' start the name of a reference; " QUOTES,
     BEGUN},
    {"found a tab character", "a tab cannot indent a line; use blanks", LINE},
    {"did not find expected comment or line break",
     "after '|' or '>' the text starts on the next line", HERE},
    {"indentation indicator", "after '|' or '>' the text starts on the next line", HERE},
    {"found unexpected ':'", "':' cannot stand here; " QUOTES, HERE},
    {"did not find expected node content", "a value is missing here", HERE},
    {"URI", "'!' cannot start a value; " QUOTES, HERE},
    {"'!'", "'!' cannot start a value; " QUOTES, HERE},
    {"the expected '>'", "'!' cannot start a value; " QUOTES, BEGUN},
    {"tag handle", "'!' cannot start a value; " QUOTES, HERE},
    {"directive", "a line that starts with '%' is not used in a job file", BOTH},
    {"version number", "a line that starts with '%' is not used in a job file", BOTH},
    {"incompatible", "a line that starts with '%' is not used in a job file", BOTH},
    {"cannot start any token", "this character cannot start a value; " QUOTES, HERE},
};

/* Where the parser's words mean something else. */
static const struct finding tab = {NULL, "a tab cannot stand here; use blanks", LINE};
static const struct finding behind = {
    NULL, "nothing can follow a value on its line; put all of it into one pair of quotes", LINE};
static const struct finding unknown = {NULL, "this is not well-formed YAML", HERE};

/* The line of a place, and whether nothing but blanks stands before the place. */
static cursor line_of(const char *text, size_t length, size_t line) {
    cursor here = {text, length, 0, 1, 1};
    while (here.at < length && here.line < line)
        step(&here);
    return here;
}

static bool is_first(cursor from, size_t column) {
    while (from.at < from.length && from.column < column && from.text[from.at] == ' ')
        step(&from);
    return from.column >= column;
}

static cursor place_in(cursor from, size_t column) {
    size_t line = from.line;
    cursor before = from;
    while (from.at < from.length && from.line == line && from.column < column) {
        before = from;
        step(&from);
    }
    return from.line == line ? from : before;
}

static const struct finding *finding_for(const char *said, cursor line, size_t column) {
    cursor at = place_in(line, column);
    bool is_tab = at.at < at.length && at.text[at.at] == '\t';
    if (is_tab && strstr(said, "cannot start any token"))
        return &tab;
    if (strstr(said, "did not find expected key") && !is_first(line, column))
        return &behind;
    for (size_t i = 0; i < sizeof findings / sizeof *findings; i++)
        if (strstr(said, findings[i].said))
            return &findings[i];
    return &unknown;
}

/* What stands at a place, up to the end of its line. */
static runnel_slice rest_of_line(cursor from) {
    runnel_slice rest = {from.text + from.at, from.text + from.at};
    size_t line = from.line;
    for (size_t characters = 0; from.at < from.length && characters < 80; characters++) {
        step(&from);
        if (from.line != line)
            break;
        rest.end = from.text + from.at;
    }
    return rest;
}

runnel_status runnel_yaml_tell_fault(const char *text, size_t length, const char *file,
                                     const runnel_yaml_fault *fault, runnel_problems *problems) {
    runnel_place place = {.file = file, .line = fault->line, .column = fault->column};
    cursor line = line_of(text, length, fault->line);
    const struct finding *found = finding_for(fault->problem, line, fault->column);
    if (found->begun && fault->begun_line) {
        place.line = fault->begun_line;
        place.column = fault->begun_column;
        line = line_of(text, length, place.line);
    }
    char shown[RUNNEL_SHOWN_SIZE];
    runnel_slice rest =
        runnel_slice_trim(rest_of_line(found->line ? line : place_in(line, place.column)));
    if (rest.at == rest.end)
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, &place, "%s", found->words);
    return runnel_problems_add(problems, RUNNEL_E_SYNTAX, &place, "'%s': %s",
                               runnel_slice_show(rest, shown), found->words);
}
