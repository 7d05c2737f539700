/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * From the tree of a job file to the job: what the files yaml_walk.c, yaml_value.c and yaml_job.c
 * share. The keys stand in the one table of job/fields.h.
 */
#ifndef RUNNEL_READ_YAML_WALK_H
#define RUNNEL_READ_YAML_WALK_H

#include "job/check.h"
#include "read/yaml_tree.h"

/** Where a value stood, and whether it was refused. */
typedef struct runnel_yaml_note {
    runnel_spot spot;
    runnel_field_id id;
    size_t node;
    bool refused;
} runnel_yaml_note;

/** A walk in progress. */
typedef struct runnel_yaml_walk {
    const runnel_yaml_tree *tree;
    const runnel_tables *tables;
    runnel_problems *problems;
    runnel_job *job; /**< being filled; its file is the name for messages */
    runnel_yaml_note *notes;
    size_t note_count, note_capacity;
    size_t steps;
    const runnel_yaml_node *ratio_of_resin; /**< given under the resin, or NULL */
    size_t first_problem;                   /**< problems that were in the list before */
    runnel_status stopped; /**< memory or the limit of steps ran out: nothing more is read */
} runnel_yaml_walk;

/** Room for a path. */
#define RUNNEL_PATH_SIZE 400

/** Longest name and quantity, and longest text or shape, in bytes. */
#define RUNNEL_LONGEST_NAME 200
#define RUNNEL_LONGEST_TEXT 20000
#define RUNNEL_LONGEST_FORM 1000000

/** A walk stops after so many problems: nobody reads more of them. */
#define RUNNEL_YAML_PROBLEMS 1000

/** Place of a node for a field. `path` has RUNNEL_PATH_SIZE bytes. */
runnel_place runnel_yaml_place(const runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                               const runnel_yaml_node *node, char *path);

/** Tells a problem of a field at a node. @return status */
runnel_status runnel_yaml_tell(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                               const runnel_yaml_node *node, runnel_status status,
                               const char *format, ...) RUNNEL_PRINTF(6, 7);

/** Tells that a node is not of the kind that its field needs, or holds nothing.
 * @return RUNNEL_OK when it is and does */
runnel_status runnel_yaml_need(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                               const runnel_yaml_node *node, runnel_yaml_kind kind);

/** The text of a value on one line (or on several), of at most `most` bytes, not empty, without
 * control characters. Borrowed from the tree. */
runnel_status runnel_yaml_value(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                const runnel_yaml_node *node, size_t most, const char **text);

/** Keeps where the value of a field stood. */
void runnel_yaml_note_down(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                           const runnel_yaml_node *node, bool refused);

/** One link after another: the node of a link, or NULL at the end or when the walk has stopped;
 * steps on. */
const runnel_yaml_node *runnel_yaml_next(runnel_yaml_walk *walk, size_t *link);

/** Reads all keys of a mapping into the struct of the scope; what is wrong is told. */
void runnel_yaml_mapping(runnel_yaml_walk *walk, runnel_scope scope, runnel_spot spot,
                         const runnel_yaml_node *node);

/** Puts the notes in order; after that runnel_yaml_told answers (runnel_told_function, with the
 * walk as state). */
void runnel_yaml_sort_notes(runnel_yaml_walk *walk);
bool runnel_yaml_told(const void *state, runnel_spot spot, runnel_field_id id, runnel_told *told);

/** Reads one value into the place of its field; lists and mappings too. What is wrong is told.
 * (yaml_job.c; runnel_yaml_single in yaml_value.c does the values that are a single one.) */
runnel_status runnel_yaml_field(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                const runnel_yaml_node *node);
runnel_status runnel_yaml_single(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                 const runnel_yaml_node *node);
/** Reads the second ratio of a list. (yaml_value.c) */
runnel_status runnel_yaml_other_ratio(runnel_yaml_walk *walk, runnel_spot spot, runnel_field_id id,
                                      const runnel_yaml_node *node);

#endif
