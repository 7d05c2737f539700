/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * A YAML document as a tree of nodes that know where they stand.
 */
#ifndef RUNNEL_READ_YAML_TREE_H
#define RUNNEL_READ_YAML_TREE_H

#include "runnel/status.h"

#include <stdbool.h>

/** Limits that keep a hostile file from using up the machine; no job comes near them. */
#define RUNNEL_YAML_NODES   1000000 /**< values, and steps of a walk with aliases followed */
#define RUNNEL_YAML_DEPTH   32      /**< values inside one another */
#define RUNNEL_YAML_ANCHORS 1000

/** Kinds of node. */
typedef enum runnel_yaml_kind {
    RUNNEL_YAML_SCALAR,
    RUNNEL_YAML_LIST,
    RUNNEL_YAML_MAPPING
} runnel_yaml_kind;

/** A node. An alias is no node: the link to it goes to the node that it stands for. */
typedef struct runnel_yaml_node {
    runnel_yaml_kind kind;
    bool empty;          /**< a scalar without quotes that is nothing or "~" */
    bool open;           /**< while it is being read */
    size_t line, column; /**< from 1, in characters */
    size_t text, length; /**< a scalar's bytes in runnel_yaml_tree.characters, closed with a zero;
                            line ends at the end of it are left out */
    size_t first, last;  /**< links to items, or to keys and values in turn */
    size_t count;        /**< how many links; pairs count twice */
} runnel_yaml_node;

/** A link to a node, in a chain that RUNNEL_YAML_END ends. */
typedef struct runnel_yaml_link {
    size_t node, next;
} runnel_yaml_link;

#define RUNNEL_YAML_END ((size_t)-1)

/** A tree. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_yaml_tree {
    char *characters;
    size_t character_count, character_capacity;
    runnel_yaml_node *nodes;
    size_t node_count, node_capacity;
    runnel_yaml_link *links;
    size_t link_count, link_capacity;
    size_t root;
} runnel_yaml_tree;

/** Frees all and leaves an empty tree. */
void runnel_yaml_clear(runnel_yaml_tree *tree);

/**
 * Reads the only document of a file. What keeps it from being read is told with its place: bytes
 * that are not text, YAML that is not well-formed, a second document, no document at all, tags, a
 * reference to nothing or to what it stands in, and more than the limits above.
 *
 * @param text     UTF-8, with or without a byte order mark; need not be closed with a zero
 * @param problems not NULL
 * @param tree     an empty one; to be cleared on failure too
 */
runnel_status runnel_yaml_load(const char *text, size_t length, const char *file,
                               runnel_problems *problems, runnel_yaml_tree *tree);

/** Text of a scalar. */
const char *runnel_yaml_text(const runnel_yaml_tree *tree, const runnel_yaml_node *node);

/* ---- What is wrong with the text as such (yaml_words.c) -------------------------------------- */

/** What the parser said. */
typedef struct runnel_yaml_fault {
    const char *problem;             /**< in the parser's words */
    size_t line, column;             /**< from 1 */
    size_t begun_line, begun_column; /**< where the thing began that it could not read, or 0 */
} runnel_yaml_fault;

/** Tells of the first byte that cannot stand in a job file. @return RUNNEL_OK or the problem's */
runnel_status runnel_yaml_check_bytes(const char *text, size_t length, const char *file,
                                      runnel_problems *problems);

/** Tells in our own words, and at the more useful of its two places, what the parser found. */
runnel_status runnel_yaml_tell_fault(const char *text, size_t length, const char *file,
                                     const runnel_yaml_fault *fault, runnel_problems *problems);

#endif
