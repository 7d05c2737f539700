/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The log of a temperature logger: a CSV file of time stamps, temperatures and humidities.
 *
 * The file is as told in runnel/tables.h; where cells are parted by semicolons, numbers may have a
 * decimal comma. Up to 20 lines may stand before the header. The header is the first row with a
 * column of time and one of temperature; columns are known by a word of their name:
 *
 * | column | words | unit, in brackets or at the end |
 * |---|---|---|
 * | time stamp | time, date, timestamp, datetime; or one column "date" and one "time" | none |
 * | temperature | temp, temperature | °C or °F; needed |
 * | relative humidity | humidity, rh; may be missing | %; needed |
 *
 * Other columns are left alone. See runnel/stamp.h for time stamps; where day and month could be
 * either, the other stamps of the file decide. Either all stamps have an offset from UTC or none.
 */
#ifndef RUNNEL_LOG_CSV_H
#define RUNNEL_LOG_CSV_H

#include "runnel/cure.h"
#include "runnel/stamp.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Most readings of a log: a minute apart they last almost four years. */
#define RUNNEL_LOG_MOST 2000000

/** A stretch without readings, more than three times as long as the usual step. */
typedef struct runnel_log_gap {
    size_t line;            /**< of the reading that ends it */
    double from_s, until_s; /**< as the readings' time_s */
} runnel_log_gap;

/** A log. Zero-initialised is empty; owned by the caller. */
typedef struct runnel_log {
    runnel_reading *readings; /**< in rising order of time; time_s as in runnel_stamp */
    size_t count;             /**< 2 or more */
    runnel_stamp first;       /**< the first stamp, which tells the clock of all */
    bool has_humidity;
    double step_s; /**< the usual step: the median */
    runnel_log_gap *gaps;
    size_t gap_count;
    size_t repeated;      /**< rows left out as they repeat the one before ... */
    size_t repeated_line; /**< ... and the line of the first of them; 0 without */
    size_t empty;         /**< rows left out as they have no temperature ... */
    size_t empty_line;
} runnel_log;

/** Frees all and leaves it empty. NULL is allowed. */
void runnel_log_clear(runnel_log *log);

/**
 * Takes a log apart. All problems are told with file, line, column and header, up to a hundred
 * lines, and then nothing is taken: a header that lacks a column or a unit or has one twice; a
 * stamp or number that is none; stamps of which nothing tells the order of day and month, or of
 * which some show the day first and some the month; stamps with and without offset; one that goes
 * back; one that stands twice with different readings; a temperature beyond -60 to 150 °C, a
 * humidity beyond 0 to 110 % (above 100 it counts as 100); fewer than two readings.
 *
 * @param text     `length` bytes
 * @param path     for messages
 * @param problems may be NULL
 * @param log      an empty one; untouched on failure
 */
runnel_status runnel_log_parse(const char *text, size_t length, const char *path,
                               runnel_problems *problems, runnel_log *log);

/** Reads a log ("-" is the standard input); see runnel_file_read and runnel_log_parse. */
runnel_status runnel_log_read(const char *path, runnel_problems *problems, runnel_log *log);

#ifdef __cplusplus
}
#endif
#endif
