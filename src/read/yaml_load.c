/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read/yaml_tree.h"

#include "base/memory.h"
#include "base/slice.h"

#include <stdint.h>
#include <string.h>
#include <yaml.h>

typedef struct anchor {
    char *name;
    size_t node;
} anchor;

typedef struct loader {
    yaml_parser_t parser;
    const char *text;
    size_t length;
    const char *file;
    runnel_problems *problems;
    runnel_yaml_tree *tree;
    size_t open[RUNNEL_YAML_DEPTH]; /* the nodes that are being read, outermost first */
    size_t depth;
    anchor *anchors;
    size_t anchor_count, anchor_capacity;
    size_t documents;
    bool rooted;
    bool ended;
} loader;

void runnel_yaml_clear(runnel_yaml_tree *tree) {
    runnel_free(tree->characters);
    runnel_free(tree->nodes);
    runnel_free(tree->links);
    memset(tree, 0, sizeof *tree);
}

const char *runnel_yaml_text(const runnel_yaml_tree *tree, const runnel_yaml_node *node) {
    return tree->characters + node->text;
}

static runnel_place place_of(const loader *load, yaml_mark_t mark) {
    return (runnel_place){.file = load->file, .line = mark.line + 1, .column = mark.column + 1};
}

/* ---- Building -------------------------------------------------------------------------------- */

/* Hangs a node into the one that is open, or makes it the root. */
static runnel_status hang(loader *load, size_t node) {
    runnel_yaml_tree *tree = load->tree;
    if (!load->depth) {
        tree->root = node;
        load->rooted = true;
        return RUNNEL_OK;
    }
    runnel_status status = runnel_reserve(&tree->links, &tree->link_capacity, tree->link_count + 1,
                                          sizeof *tree->links);
    if (status)
        return status;
    runnel_yaml_node *parent = &tree->nodes[load->open[load->depth - 1]];
    size_t link = tree->link_count++;
    tree->links[link] = (runnel_yaml_link){node, RUNNEL_YAML_END};
    if (parent->count)
        tree->links[parent->last].next = link;
    else
        parent->first = link;
    parent->last = link;
    parent->count++;
    return RUNNEL_OK;
}

static runnel_status add_node(loader *load, runnel_yaml_kind kind, yaml_mark_t mark, size_t *node) {
    runnel_yaml_tree *tree = load->tree;
    runnel_place place = place_of(load, mark);
    if (tree->node_count >= RUNNEL_YAML_NODES)
        return runnel_problems_add(load->problems, RUNNEL_E_RANGE, &place,
                                   "the file holds more than %d values", RUNNEL_YAML_NODES);
    runnel_status status = runnel_reserve(&tree->nodes, &tree->node_capacity, tree->node_count + 1,
                                          sizeof *tree->nodes);
    if (status)
        return status;
    tree->nodes[tree->node_count] = (runnel_yaml_node){.kind = kind,
                                                       .line = place.line,
                                                       .column = place.column,
                                                       .first = RUNNEL_YAML_END,
                                                       .last = RUNNEL_YAML_END};
    *node = tree->node_count++;
    return hang(load, *node);
}

static runnel_status add_text(loader *load, runnel_yaml_node *node, const char *text,
                              size_t length) {
    runnel_yaml_tree *tree = load->tree;
    while (length && text[length - 1] == '\n')
        length--;
    runnel_status status =
        runnel_reserve(&tree->characters, &tree->character_capacity,
                       tree->character_count + length + 1, sizeof *tree->characters);
    if (status)
        return status;
    node->text = tree->character_count;
    node->length = length;
    memcpy(tree->characters + tree->character_count, text, length);
    tree->characters[tree->character_count + length] = '\0';
    tree->character_count += length + 1;
    return RUNNEL_OK;
}

/* A later anchor of the same name takes its place, as YAML has it. */
static runnel_status add_anchor(loader *load, const yaml_char_t *name, yaml_mark_t mark,
                                size_t node) {
    if (!name)
        return RUNNEL_OK;
    for (size_t i = 0; i < load->anchor_count; i++) {
        if (!strcmp(load->anchors[i].name, (const char *)name)) {
            load->anchors[i].node = node;
            return RUNNEL_OK;
        }
    }
    runnel_place place = place_of(load, mark);
    if (load->anchor_count >= RUNNEL_YAML_ANCHORS)
        return runnel_problems_add(load->problems, RUNNEL_E_RANGE, &place,
                                   "the file holds more than %d anchors ('&name')",
                                   RUNNEL_YAML_ANCHORS);
    runnel_status status = runnel_reserve(&load->anchors, &load->anchor_capacity,
                                          load->anchor_count + 1, sizeof *load->anchors);
    if (status)
        return status;
    char *copy = runnel_copy_text((const char *)name);
    if (!copy)
        return RUNNEL_E_NO_MEMORY;
    load->anchors[load->anchor_count++] = (anchor){copy, node};
    return RUNNEL_OK;
}

/* ---- Events ---------------------------------------------------------------------------------- */

static runnel_status refuse_tag(loader *load, const yaml_char_t *tag, yaml_mark_t mark) {
    if (!tag || !strcmp((const char *)tag, "!"))
        return RUNNEL_OK;
    runnel_place place = place_of(load, mark);
    char shown[RUNNEL_SHOWN_SIZE];
    return runnel_problems_add(load->problems, RUNNEL_E_SYNTAX, &place,
                               "the tag '%s' is not used in a job; put a text that starts with "
                               "'!' in quotes",
                               runnel_slice_show(runnel_slice_of((const char *)tag), shown));
}

static runnel_status on_scalar(loader *load, const yaml_event_t *event) {
    const char *value = (const char *)event->data.scalar.value;
    size_t length = event->data.scalar.length, index;
    runnel_status status = refuse_tag(load, event->data.scalar.tag, event->start_mark);
    if (!status)
        status = add_node(load, RUNNEL_YAML_SCALAR, event->start_mark, &index);
    if (status)
        return status;
    runnel_yaml_node *node = &load->tree->nodes[index];
    bool plain = event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE;
    node->empty = plain && (!length || !strcmp(value, "~"));
    if (memchr(value, '\0', length)) {
        runnel_place place = place_of(load, event->start_mark);
        return runnel_problems_add(load->problems, RUNNEL_E_SYNTAX, &place,
                                   "a zero character ('\\0') cannot stand in a text");
    }
    status = add_text(load, node, value, length);
    if (!status)
        status = add_anchor(load, event->data.scalar.anchor, event->start_mark, index);
    return status;
}

static runnel_status on_start(loader *load, runnel_yaml_kind kind, const yaml_char_t *tag,
                              const yaml_char_t *name, yaml_mark_t mark) {
    runnel_place place = place_of(load, mark);
    size_t node;
    runnel_status status = refuse_tag(load, tag, mark);
    if (!status && load->depth >= RUNNEL_YAML_DEPTH)
        status =
            runnel_problems_add(load->problems, RUNNEL_E_RANGE, &place,
                                "more than %d values stand inside one another", RUNNEL_YAML_DEPTH);
    if (!status)
        status = add_node(load, kind, mark, &node);
    if (!status)
        status = add_anchor(load, name, mark, node);
    if (status)
        return status;
    load->tree->nodes[node].open = true;
    load->open[load->depth++] = node;
    return RUNNEL_OK;
}

static runnel_status on_end(loader *load) {
    load->tree->nodes[load->open[--load->depth]].open = false;
    return RUNNEL_OK;
}

static runnel_status on_alias(loader *load, const yaml_event_t *event) {
    const char *name = (const char *)event->data.alias.anchor;
    runnel_place place = place_of(load, event->start_mark);
    char shown[RUNNEL_SHOWN_SIZE];
    runnel_slice_show(runnel_slice_of(name), shown);
    for (size_t i = 0; i < load->anchor_count; i++) {
        if (strcmp(load->anchors[i].name, name) != 0)
            continue;
        if (load->tree->nodes[load->anchors[i].node].open)
            return runnel_problems_add(load->problems, RUNNEL_E_SYNTAX, &place,
                                       "'*%s' stands inside the value that it refers to", shown);
        return hang(load, load->anchors[i].node);
    }
    return runnel_problems_add(load->problems, RUNNEL_E_UNKNOWN, &place,
                               "'*%s' refers to no value before it; put a text that starts with "
                               "'*' in quotes",
                               shown);
}

static runnel_status on_document(loader *load, const yaml_event_t *event) {
    runnel_place place = place_of(load, event->start_mark);
    if (load->documents++)
        return runnel_problems_add(load->problems, RUNNEL_E_SYNTAX, &place,
                                   "a second document starts here ('---'); a file holds one job");
    return RUNNEL_OK;
}

static runnel_status on_event(loader *load, const yaml_event_t *event) {
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        return on_document(load, event);
    case YAML_ALIAS_EVENT:
        return on_alias(load, event);
    case YAML_SCALAR_EVENT:
        return on_scalar(load, event);
    case YAML_SEQUENCE_START_EVENT:
        return on_start(load, RUNNEL_YAML_LIST, event->data.sequence_start.tag,
                        event->data.sequence_start.anchor, event->start_mark);
    case YAML_MAPPING_START_EVENT:
        return on_start(load, RUNNEL_YAML_MAPPING, event->data.mapping_start.tag,
                        event->data.mapping_start.anchor, event->start_mark);
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
        return on_end(load);
    case YAML_STREAM_END_EVENT:
        load->ended = true;
        return RUNNEL_OK;
    case YAML_NO_EVENT:
    case YAML_STREAM_START_EVENT:
    case YAML_DOCUMENT_END_EVENT:
        break;
    }
    return RUNNEL_OK;
}

static runnel_status tell_parser(loader *load) {
    const yaml_parser_t *parser = &load->parser;
    if (parser->error == YAML_MEMORY_ERROR)
        return RUNNEL_E_NO_MEMORY;
    runnel_yaml_fault fault = {.problem = parser->problem ? parser->problem : "",
                               .line = parser->problem_mark.line + 1,
                               .column = parser->problem_mark.column + 1};
    if (parser->context) {
        fault.begun_line = parser->context_mark.line + 1;
        fault.begun_column = parser->context_mark.column + 1;
    }
    return runnel_yaml_tell_fault(load->text, load->length, load->file, &fault, load->problems);
}

static runnel_status read_events(loader *load) {
    runnel_status status = RUNNEL_OK;
    while (!status && !load->ended) {
        yaml_event_t event;
        if (!yaml_parser_parse(&load->parser, &event))
            return tell_parser(load);
        status = on_event(load, &event);
        yaml_event_delete(&event);
    }
    if (!status && (!load->rooted || load->tree->nodes[load->tree->root].empty)) {
        runnel_place place = {.file = load->file, .line = 1, .column = 1};
        return runnel_problems_add(load->problems, RUNNEL_E_MISSING, &place,
                                   "the file holds no job; a job has at least 'pieces:' with one "
                                   "piece and its cavities");
    }
    return status;
}

runnel_status runnel_yaml_load(const char *text, size_t length, const char *file,
                               runnel_problems *problems, runnel_yaml_tree *tree) {
    static const char mark[] = "\xEF\xBB\xBF"; /* byte order mark */
    if (length >= 3 && !memcmp(text, mark, 3)) {
        text += 3;
        length -= 3;
    }
    runnel_status status = runnel_yaml_check_bytes(text, length, file, problems);
    if (status)
        return status;
    loader load = {
        .text = text, .length = length, .file = file, .problems = problems, .tree = tree};
    if (!yaml_parser_initialize(&load.parser))
        return RUNNEL_E_NO_MEMORY;
    yaml_parser_set_encoding(&load.parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&load.parser, (const unsigned char *)text, length);
    status = read_events(&load);
    yaml_parser_delete(&load.parser);
    for (size_t i = 0; i < load.anchor_count; i++)
        runnel_free(load.anchors[i].name);
    runnel_free(load.anchors);
    return status;
}
