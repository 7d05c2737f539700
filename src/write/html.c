/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/html.h"

#include "base/utf8.h"

#include <string.h>

/* One scale of type and one measure; colours are the reader's, and none carries a meaning. */
static const char head[] =
    "<!DOCTYPE html>\n"
    "<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n"
    "<head>\n"
    "<meta charset=\"utf-8\"/>\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
    "<meta name=\"color-scheme\" content=\"light dark\"/>\n"
    "<style>\n"
    ":root { color-scheme: light dark; font: 100%/1.5 sans-serif; }\n"
    "main { max-width: 38rem; margin: 2rem auto; padding: 0 1rem; }\n"
    "h1 { font-size: 1.8rem; line-height: 1.2; margin: 0 0 1rem; }\n"
    "h1 span { display: block; font-size: 1.25rem; }\n"
    "h2 { font-size: 1.25rem; margin: 1.5rem 0 .5rem; }\n"
    "h3 { font-size: 1rem; margin: 1.2rem 0 .3rem; }\n"
    "p, ul, ol, dl { margin: .5rem 0; }\n"
    "ul, ol { padding-left: 1.2rem; }\n"
    "dl { display: grid; grid-template-columns: minmax(8rem, auto) 1fr; gap: 0 1.5rem; }\n"
    "dt { grid-column: 1; }\n"
    "dd { grid-column: 2; margin: 0; }\n"
    "aside { border: solid .25rem; padding: .5rem 1rem; margin: 1rem 0; }\n"
    "aside h2 { margin-top: 0; }\n"
    "h2 b { margin-right: .6rem; }\n"
    ".under { margin: 0 0 .5rem 1.5rem; }\n"
    "figure { margin: 1rem 0; } figcaption { font-size: .9rem; }\n"
    "img { max-width: 100%; height: auto; }\n"
    "table { border-collapse: collapse; margin: .5rem 0; font-variant-numeric: tabular-nums; }\n"
    "th, td { text-align: right; padding: .15rem 0 .15rem 1.5rem; vertical-align: top; }\n"
    "th:first-child, td:first-child { text-align: left; padding-left: 0; font-weight: normal; }\n"
    ".large td:nth-child(2) { font-size: 1.8rem; font-weight: bold; line-height: 1.2; }\n"
    "thead th { border-bottom: solid .1rem; }\n"
    "@media screen and (prefers-color-scheme: dark) { img { filter: invert(1); } }\n"
    "@media print { :root { color-scheme: light; font-size: 10pt; }\n"
    "main { margin: 0; max-width: none; }\n"
    "li, dd, aside, figure, tr { break-inside: avoid; } h2, h3 { break-after: avoid; } }\n"
    "</style>\n";

/* What XML cannot hold becomes '?', as all other outputs have it. */
static void put(const char *text, FILE *out) {
    size_t length;
    uint32_t before = 0;
    for (uint32_t point = runnel_utf8_next(text, &length); length;
         text += length, before = point, point = runnel_utf8_next(text, &length)) {
        if (runnel_layout_wants_mark(before, point))
            fputs(RUNNEL_LAYOUT_MARK, out);
        bool unseen = (point < ' ' && point != '\n') || (point >= 0x7F && point < 0xA0) ||
                      (point >= 0xD800 && point < 0xE000) || point == 0xFFFE || point == 0xFFFF;
        if (unseen)
            fputc('?', out);
        else if (point == '&')
            fputs("&amp;", out);
        else if (point == '<')
            fputs("&lt;", out);
        else if (point == '>')
            fputs("&gt;", out);
        else if (point == '"')
            fputs("&quot;", out);
        else
            fwrite(text, 1, length, out);
    }
}

static void put_in(const char *tag, const char *text, FILE *out) {
    fprintf(out, "<%s>", tag);
    put(text, out);
    fprintf(out, "</%s>\n", tag);
}

static bool is_numbered(const runnel_doc_block *block) {
    return block->label[0] >= '0' && block->label[0] <= '9';
}

/* What the blocks of a kind stand in together; NULL where each stands alone. */
static const char *frame_of(const runnel_doc_block *block) {
    const runnel_doc_kind kind = block->kind;
    return kind == RUNNEL_DOC_ITEM ? is_numbered(block) ? "ol" : "ul"
           : kind == RUNNEL_DOC_ENTRY || kind == RUNNEL_DOC_FIGURE || kind == RUNNEL_DOC_FACT ? "dl"
           : kind == RUNNEL_DOC_WARNING ? "aside"
           : kind == RUNNEL_DOC_ROW     ? "table"
                                        : NULL;
}

static void write_title(const runnel_doc_block *block, FILE *out) {
    fputs("<h1>", out);
    put(block->label, out);
    fputs(" <span>", out);
    put(block->text, out);
    fputs("</span></h1>\n", out);
}

static void write_labelled(const char *tag, const char *before, const runnel_doc_block *block,
                           FILE *out) {
    fprintf(out, "<%s>%s", tag, before);
    if (*block->label && block->kind == RUNNEL_DOC_WARNING) {
        put(block->label, out);
        fputs(": ", out);
    }
    put(block->text, out);
    fprintf(out, "</%s>\n", tag);
}

/* The first row of a table holds the heads of its columns, the first cell of others that of the
 * row. */
static void write_row(const runnel_doc *doc, size_t index, FILE *out) {
    const runnel_doc_block *block = &doc->blocks[index];
    bool is_first = index == runnel_doc_heads(doc, index);
    bool is_last = index + 1 == doc->count || doc->blocks[index + 1].kind != RUNNEL_DOC_ROW;
    char cell[RUNNEL_DOC_CELL];
    fputs(is_first ? "<thead><tr>" : "<tr>", out);
    for (size_t column = 0; runnel_doc_cell(block, column, cell); column++) {
        const char *tag = is_first ? "th scope=\"col\"" : column ? "td" : "th scope=\"row\"";
        fprintf(out, "<%s>", tag);
        put(cell, out);
        fprintf(out, "</%.2s>", tag);
    }
    fputs(is_first ? "</tr></thead>\n<tbody>\n" : "</tr>\n", out);
    fputs(is_last ? "</tbody>\n" : "", out);
}

static runnel_status write_image(const runnel_doc_block *block, runnel_image_function embed,
                                 const void *state, FILE *out) {
    if (!embed)
        return RUNNEL_OK;
    fputs("<figure><img alt=\"", out);
    put(block->text, out);
    fputs("\" src=\"", out);
    runnel_status status = embed(block, state, out);
    fputs("\"/>", out);
    if (*block->label)
        put_in("figcaption", block->label, out);
    fputs("</figure>\n", out);
    return status;
}

static void write_block(const runnel_doc_block *block, FILE *out) {
    char text[RUNNEL_DOC_FIGURE_SIZE];
    switch (block->kind) {
    case RUNNEL_DOC_TITLE:
        write_title(block, out);
        break;
    case RUNNEL_DOC_WARNING:
        write_labelled("p", "", block, out);
        break;
    case RUNNEL_DOC_HEAD:
        put_in("h2", block->text, out);
        break;
    case RUNNEL_DOC_TEXT:
    case RUNNEL_DOC_INNER:
        put_in("p", block->text, out);
        break;
    case RUNNEL_DOC_UNDER:
        fputs("<p class=\"under\">", out);
        put(block->text, out);
        fputs("</p>\n", out);
        break;
    case RUNNEL_DOC_STEP:
        fputs("<h2><b>", out);
        put(block->label, out);
        fputs("</b>", out);
        put(block->text, out);
        fputs("</h2>\n", out);
        break;
    case RUNNEL_DOC_PART:
        put_in("h3", block->text, out);
        break;
    case RUNNEL_DOC_FIGURE:
        put_in("dt", block->label, out);
        put_in("dd", runnel_doc_figure_text(block, text), out);
        break;
    case RUNNEL_DOC_FACT:
        put_in("dt", block->label, out);
        put_in("dd", block->text, out);
        break;
    case RUNNEL_DOC_GAP:
        break;
    case RUNNEL_DOC_ROW:
    case RUNNEL_DOC_IMAGE:
        break; /* by functions of their own */
    case RUNNEL_DOC_ITEM:
        write_labelled("li", !strcmp(block->label, "!") ? "<strong>!</strong> " : "", block, out);
        break;
    case RUNNEL_DOC_ENTRY:
        if (*block->label)
            put_in("dt", block->label, out);
        put_in("dd", block->text, out);
        break;
    }
}

runnel_status runnel_doc_write_html(const runnel_doc *doc, runnel_image_function embed,
                                    const void *state, FILE *out) {
    const char *frame = NULL;
    runnel_status status = RUNNEL_OK;
    if (doc->failed)
        return RUNNEL_E_NO_MEMORY;
    fputs(head, out);
    fputs("<title>", out);
    if (doc->count) {
        put(doc->blocks[0].label, out);
        fputs(": ", out);
        put(doc->blocks[0].text, out);
    }
    fputs("</title>\n</head>\n<body>\n<main>\n", out);
    for (size_t i = 0; i < doc->count; i++) {
        const char *next = frame_of(&doc->blocks[i]);
        if (frame && frame != next)
            fprintf(out, "</%s>\n", frame);
        if (next && frame != next)
            fprintf(out, "<%s%s>\n%s", next,
                    doc->large && !strcmp(next, "table") ? " class=\"large\"" : "",
                    doc->blocks[i].kind == RUNNEL_DOC_WARNING ? "<h2>" RUNNEL_DOC_READ_FIRST
                                                                "</h2>\n"
                                                              : "");
        frame = next;
        if (doc->blocks[i].kind == RUNNEL_DOC_ROW)
            write_row(doc, i, out);
        else if (doc->blocks[i].kind == RUNNEL_DOC_IMAGE && !status)
            status = write_image(&doc->blocks[i], embed, state, out);
        else
            write_block(&doc->blocks[i], out);
    }
    if (frame)
        fprintf(out, "</%s>\n", frame);
    fputs("</main>\n</body>\n</html>\n", out);
    runnel_status closed = runnel_layout_close(out);
    return status ? status : closed;
}
