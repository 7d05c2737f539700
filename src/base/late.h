/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * Libraries that are loaded when they are first needed.
 *
 * Most commands draw nothing, set no letters and write no calendar, and loading what those need
 * takes longer than all that such a command does. A file that calls such a library lists the
 * functions, and calls them as `lib.name(...)`; one that is not on its list does not compile:
 *
 *     #define CALLS(X) X(cairo_create) X(cairo_destroy)
 *     RUNNEL_LATE(CALLS, RUNNEL_LATE_PANGOCAIRO);
 *     ...
 *     runnel_status status = runnel_late_load(&late);
 *     if (!status)
 *         lib.cairo_destroy(lib.cairo_create(surface));
 */
#ifndef RUNNEL_BASE_LATE_H
#define RUNNEL_BASE_LATE_H

#include "runnel/status.h"

#include <stdatomic.h>

/* The files of the libraries. The number is that of the binary interface which the headers of the
 * library describe; tests/check_install.sh holds it against the library that is installed. */
#define RUNNEL_LATE_FONTCONFIG "libfontconfig.so.1"
#define RUNNEL_LATE_FREETYPE   "libfreetype.so.6"
#define RUNNEL_LATE_FRIBIDI    "libfribidi.so.0"
#define RUNNEL_LATE_GEOS       "libgeos_c.so.1"
#define RUNNEL_LATE_HARFBUZZ   "libharfbuzz.so.0"
#define RUNNEL_LATE_ICAL       "libical.so.3"
/** Brings cairo, pango, gobject and glib with it. */
#define RUNNEL_LATE_PANGOCAIRO "libpangocairo-1.0.so.0"

/** Most libraries of one list. */
#define RUNNEL_LATE_MOST 2

/** A list of functions, and where they are looked for. */
typedef struct runnel_late {
    const char *files[RUNNEL_LATE_MOST]; /**< filled from the front */
    const char *const *names;            /**< the last is NULL */
    void *pointers;                      /**< one to each function, in the order of the names */
    atomic_bool loaded;
} runnel_late;

#define RUNNEL_LATE_POINTER(name) __typeof__(name) *(name);
#define RUNNEL_LATE_NAME(name)    #name,

/** Defines `lib`, the pointers to the functions of a list, and `late`, to load them by. */
#define RUNNEL_LATE(calls, ...)                                                                    \
    static struct { calls(RUNNEL_LATE_POINTER) } lib;                                              \
    static const char *const lib_names[] = {calls(RUNNEL_LATE_NAME) NULL};                         \
    static runnel_late late = {{__VA_ARGS__}, lib_names, &lib, false}

/**
 * Finds all functions of a list, once; from then on it costs nothing. Libraries stay loaded to the
 * end of the program. May be called by several threads at a time.
 *
 * @return RUNNEL_OK; RUNNEL_E_LIBRARY when a library is not installed or lacks a function
 */
runnel_status runnel_late_load(runnel_late *late);

#endif
