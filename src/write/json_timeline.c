/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/json_timeline.h"
#include "runnel/write_timeline.h"
#include "write/json_finish.h"
#include "write/moment.h"

#include <math.h>

/* What the document is made of. */
typedef struct timeline_jobs {
    const runnel_job *jobs;
    const runnel_timings *timings;
} timeline_jobs;

/* One of its jobs. */
typedef struct timeline_job {
    const runnel_job *job;
    const runnel_timing *timing;
    const runnel_zone *zone;
} timeline_job;

static const double minute_s = 60, day_s = 86400;

static json_t *moment(const timeline_job *of, double moment_s) {
    char text[RUNNEL_MOMENT_SIZE];
    return isfinite(moment_s) ? runnel_json_string(runnel_moment_stamp(of->zone, moment_s, text))
                              : json_null();
}

static json_t *step_object(const timeline_job *of, size_t index, bool *whole) {
    const runnel_timing_step *step = &of->timing->steps[index];
    bool planned = of->timing->is_planned;
    double wait_s =
        index && planned ? step->times.start_s - of->timing->steps[index - 1].times.end_s : 0;
    json_t *object = json_object();
    runnel_json_put(object, "code", runnel_json_string(step->code), whole);
    runnel_json_put(object, "text", runnel_json_string(step->text), whole);
    runnel_json_put(object, "waits_for",
                    step->waits_for ? runnel_json_string(step->waits_for) : json_null(), whole);
    runnel_json_put(object, "start", moment(of, planned ? step->times.start_s : NAN), whole);
    runnel_json_put(object, "end", moment(of, planned ? step->times.end_s : NAN), whole);
    runnel_json_put(object, "earliest", moment(of, planned ? step->times.earliest_s : NAN), whole);
    runnel_json_put(object, "latest", moment(of, planned ? step->times.latest_s : NAN), whole);
    runnel_json_put(object, "hands_min", runnel_json_number(step->task.hands_s / minute_s), whole);
    runnel_json_put(object, "wait_min", runnel_json_number(wait_s / minute_s), whole);
    runnel_json_put(object, "least_wait_min", runnel_json_number(step->task.from_s / minute_s),
                    whole);
    runnel_json_put(object, "most_wait_min", runnel_json_number(step->task.until_s / minute_s),
                    whole);
    runnel_json_put(object, "is_late", json_boolean(planned && step->times.is_late), whole);
    return object;
}

static json_t *remedy_array(const timeline_job *of, bool *whole) {
    json_t *array = json_array();
    for (size_t i = 0; i < of->timing->remedy_count; i++) {
        const runnel_timing_remedy *remedy = &of->timing->remedies[i];
        json_t *object = json_object();
        runnel_json_put(object, "code", runnel_json_string(remedy->code), whole);
        runnel_json_put(object, "text", runnel_json_string(remedy->text), whole);
        runnel_json_put(object, "ships", moment(of, remedy->ships_s), whole);
        runnel_json_put(object, "suffices", json_boolean(remedy->suffices), whole);
        runnel_json_append(array, object, whole);
    }
    return array;
}

static json_t *job_object(const timeline_job *of, bool *whole) {
    const runnel_timing *timing = of->timing;
    double late_s = timing->ships_s - timing->asked_s;
    json_t *object = json_object(), *steps = json_array();
    runnel_json_put_job(object, of->job, whole);
    runnel_json_put(object, "asked", moment(of, timing->asked_s), whole);
    for (size_t i = 0; i < timing->step_count; i++)
        runnel_json_append(steps, step_object(of, i, whole), whole);
    runnel_json_put(object, "steps", steps, whole);
    runnel_json_put(object, "hands_min", runnel_json_number(timing->hands_s / minute_s), whole);
    runnel_json_put(object, "last", moment(of, timing->last_s), whole);
    runnel_json_put(object, "wrap", moment(of, timing->wrap_s), whole);
    runnel_json_put(object, "ships", moment(of, timing->ships_s), whole);
    runnel_json_put(object, "food", moment(of, timing->food_s), whole);
    runnel_json_put(object, "late_days",
                    runnel_json_number(late_s > 0    ? late_s / day_s
                                       : late_s <= 0 ? 0
                                                     : NAN),
                    whole);
    runnel_json_put(object, "remedies", remedy_array(of, whole), whole);
    runnel_json_put_warnings(object, &timing->plan, whole);
    return object;
}

static json_t *days_off_array(const runnel_days_off *off, bool *whole) {
    json_t *array = json_array();
    for (size_t i = 0; i < off->count; i++) {
        char text[RUNNEL_DATE_SIZE];
        json_t *object = json_object();
        runnel_json_put(object, "from",
                        runnel_json_string(runnel_date_text(off->spans[i].from, text, sizeof text)),
                        whole);
        runnel_json_put(object, "to",
                        runnel_json_string(runnel_date_text(off->spans[i].to, text, sizeof text)),
                        whole);
        runnel_json_append(array, object, whole);
    }
    return array;
}

json_t *runnel_json_timeline(const runnel_job *jobs, const runnel_timings *timings, bool *whole) {
    json_t *root = json_object(), *array = json_array();
    const char *zone = NULL;
    for (size_t i = 0; i < timings->count && !zone; i++)
        zone = jobs[i].days.zone;
    runnel_json_put(root, "hours", runnel_json_string(timings->hours), whole);
    runnel_json_put(root, "zone", zone ? runnel_json_string(zone) : json_null(), whole);
    runnel_json_put(root, "days_off", days_off_array(&timings->off, whole), whole);
    runnel_json_put(root, "hands_min", runnel_json_number(timings->hands_s / minute_s), whole);
    runnel_json_put(root, "ships", moment(&(timeline_job){.zone = timings->zone}, timings->ships_s),
                    whole);
    for (size_t i = 0; i < timings->count; i++)
        runnel_json_append(
            array, job_object(&(timeline_job){&jobs[i], &timings->items[i], timings->zone}, whole),
            whole);
    runnel_json_put(root, "jobs", array, whole);
    return root;
}

static json_t *document(const void *from, bool *whole) {
    const timeline_jobs *of = from;
    return runnel_json_timeline(of->jobs, of->timings, whole);
}

runnel_status runnel_write_timeline_json(const runnel_job *jobs, const runnel_timings *timings,
                                         FILE *out) {
    return runnel_json_write(document, &(timeline_jobs){jobs, timings}, out);
}
