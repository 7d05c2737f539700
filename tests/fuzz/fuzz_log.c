/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Logs. What is refused is told and leaves the result alone. What is read is in order and in range,
 * its gaps are between two of its readings, and written in one form it reads back as the same.
 */
#include "runnel/log_csv.h"
#include "runnel/units.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require(int holds, const char *what) {
    if (holds)
        return;
    fprintf(stderr, "%s\n", what);
    abort();
}

static void check_order(const runnel_log *log) {
    require(log->count >= 2 && log->count <= RUNNEL_LOG_MOST, "a number of readings");
    for (size_t i = 0; i < log->count; i++) {
        const runnel_reading *reading = &log->readings[i];
        require(isfinite(reading->time_s), "a time");
        require(reading->degc >= -60 && reading->degc <= 150, "a temperature");
        require(isnan(reading->humidity) || (reading->humidity >= 0 && reading->humidity <= 1),
                "a humidity");
        require(!i || reading->time_s > log->readings[i - 1].time_s, "readings out of order");
    }
    require(log->step_s > 0, "a step");
    for (size_t i = 0; i < log->gap_count; i++) {
        const runnel_log_gap *gap = &log->gaps[i];
        require(gap->until_s - gap->from_s > 3 * log->step_s, "a gap that is none");
        require(gap->from_s >= log->readings[0].time_s &&
                    gap->until_s <= log->readings[log->count - 1].time_s,
                "a gap outside of the log");
    }
}

static void write_reading(const runnel_reading *reading, const runnel_stamp *clock, FILE *out) {
    char stamp[RUNNEL_STAMP_SIZE], degc[40], percent[40] = "";
    double minute_s = floor(reading->time_s / 60) * 60;
    runnel_stamp minute = {minute_s + 60.0 * clock->offset_min, false, 0};
    runnel_stamp_text(&minute, stamp);
    runnel_number_exact(reading->degc, degc, sizeof degc);
    if (!isnan(reading->humidity))
        runnel_number_exact(100 * reading->humidity, percent, sizeof percent);
    fprintf(out, "%s:%012.9f", stamp, fmin(reading->time_s - minute_s, 59.999999999));
    if (clock->has_offset)
        fprintf(out, "%c%02d:%02d", clock->offset_min < 0 ? '-' : '+', abs(clock->offset_min) / 60,
                abs(clock->offset_min) % 60);
    fprintf(out, ",%s,%s\n", degc, percent);
}

static void check_again(const runnel_log *log) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    if (!out)
        return;
    fputs("time,temperature [°C],humidity [%]\n", out);
    for (size_t i = 0; i < log->count; i++)
        write_reading(&log->readings[i], &log->first, out);
    fclose(out);
    runnel_log again = {0};
    runnel_status status = runnel_log_parse(text, length, "again", NULL, &again);
    require(status == RUNNEL_OK, "what was written cannot be read");
    require(again.count == log->count && again.has_humidity == log->has_humidity,
            "readings lost or won");
    for (size_t i = 0; i < log->count; i++) {
        const runnel_reading *one = &log->readings[i], *other = &again.readings[i];
        require(fabs(one->time_s - other->time_s) < 1e-5 && one->degc == other->degc,
                "another reading");
        require((isnan(one->humidity) && isnan(other->humidity)) ||
                    fabs(one->humidity - other->humidity) < 1e-12,
                "another humidity");
    }
    runnel_log_clear(&again);
    free(text);
}

/* Stamps so close together that a double of the clock, or nine places, do not part them. */
static int is_dense(const runnel_log *log) {
    for (size_t i = 1; i < log->count; i++)
        if (log->readings[i].time_s - log->readings[i - 1].time_s < 1e-4)
            return 1;
    return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    runnel_problems problems;
    runnel_log log = {0};
    runnel_problems_init(&problems);
    runnel_status status = runnel_log_parse((const char *)data, size, "log.csv", &problems, &log);
    require((status == RUNNEL_OK) == (problems.count == 0), "refused without a word");
    if (status == RUNNEL_OK) {
        check_order(&log);
        if (!is_dense(&log))
            check_again(&log);
    } else {
        require(!log.readings && !log.gaps && !log.count, "touched");
    }
    runnel_log_clear(&log);
    runnel_problems_clear(&problems);
    return 0;
}
