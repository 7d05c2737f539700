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
    "p, ul, dl { margin: .5rem 0; }\n"
    "ul { padding-left: 1.2rem; }\n"
    "dl { display: grid; grid-template-columns: minmax(8rem, auto) 1fr; gap: 0 1.5rem; }\n"
    "dt { grid-column: 1; }\n"
    "dd { grid-column: 2; margin: 0; }\n"
    "aside { border: solid .25rem; padding: .5rem 1rem; margin: 1rem 0; }\n"
    "aside h2 { margin-top: 0; }\n"
    "@media print { :root { color-scheme: light; font-size: 10pt; }\n"
    "main { margin: 0; max-width: none; }\n"
    "li, dd, aside { break-inside: avoid; } h2 { break-after: avoid; } }\n"
    "</style>\n";

/* What XML cannot hold becomes '?', as all other outputs have it. */
static void put(const char *text, FILE *out) {
    size_t length;
    for (uint32_t point = runnel_utf8_next(text, &length); length;
         text += length, point = runnel_utf8_next(text, &length)) {
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
        else
            fwrite(text, 1, length, out);
    }
}

static void put_in(const char *tag, const char *text, FILE *out) {
    fprintf(out, "<%s>", tag);
    put(text, out);
    fprintf(out, "</%s>\n", tag);
}

/* What the blocks of a kind stand in together; NULL where each stands alone. */
static const char *frame_of(runnel_doc_kind kind) {
    return kind == RUNNEL_DOC_ITEM      ? "ul"
           : kind == RUNNEL_DOC_ENTRY   ? "dl"
           : kind == RUNNEL_DOC_WARNING ? "aside"
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

static void write_block(const runnel_doc_block *block, FILE *out) {
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

runnel_status runnel_doc_write_html(const runnel_doc *doc, FILE *out) {
    const char *frame = NULL;
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
        const char *next = frame_of(doc->blocks[i].kind);
        if (frame && frame != next)
            fprintf(out, "</%s>\n", frame);
        if (next && frame != next)
            fprintf(out, "<%s>\n%s", next,
                    doc->blocks[i].kind == RUNNEL_DOC_WARNING ? "<h2>" RUNNEL_DOC_READ_FIRST
                                                                "</h2>\n"
                                                              : "");
        frame = next;
        write_block(&doc->blocks[i], out);
    }
    if (frame)
        fprintf(out, "</%s>\n", frame);
    fputs("</main>\n</body>\n</html>\n", out);
    return runnel_layout_close(out);
}
