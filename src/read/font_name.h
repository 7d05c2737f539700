/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What the name of a font means, before any font is looked for.
 */
#ifndef RUNNEL_READ_FONT_NAME_H
#define RUNNEL_READ_FONT_NAME_H

#include <stdbool.h>
#include <stddef.h>

/** Whether a name means a file: it has a slash, or ends as files of fonts do, in either case
 * (".ttf", ...; ".jhf" of single-line letters), before an index too. */
bool runnel_font_is_file(const char *name);

/** Bytes of the path in "path#index", where the index is digits only; all when there is none. */
size_t runnel_font_path_length(const char *name);

#endif
