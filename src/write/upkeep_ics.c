/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/memory.h"
#include "runnel/write_upkeep.h"
#include "write/care.h"
#include "write/order_seed.h"

/* An event with the texts that it needs. */
typedef struct event_texts {
    char *seed, *summary;
    char description[RUNNEL_CARE_SIZE];
} event_texts;

static const char *verb_of(runnel_upkeep_kind kind) {
    static const char *const texts[] = {"Oil", "Coat", "Look over", "Sand and finish anew"};
    return texts[kind];
}

static runnel_status make_event(const char *order, const runnel_upkeeping *upkeeping,
                                const runnel_upkeeping_part *part, const runnel_upkeep_task *task,
                                event_texts *texts, runnel_event *event) {
    texts->seed = runnel_format_text("upkeep/%s/%s/%s", order, part->piece, task->code);
    texts->summary = runnel_format_text("%s: %s", verb_of(task->kind), part->piece);
    if (!texts->seed || !texts->summary)
        return RUNNEL_E_NO_MEMORY;
    *event = (runnel_event){.seed = texts->seed,
                            .summary = texts->summary,
                            .description = runnel_care_how(upkeeping, task, texts->description,
                                                           sizeof texts->description),
                            .start = task->first,
                            .every_days = task->every_days,
                            .count = task->count};
    return RUNNEL_OK;
}

static runnel_status make_events(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                 event_texts *texts, runnel_event *events, size_t *count) {
    char *order = runnel_order_seed(job);
    runnel_status status = order ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    for (size_t i = 0; i < upkeeping->part_count && !status; i++) {
        const runnel_upkeeping_part *part = &upkeeping->parts[i];
        for (size_t k = 0; k < part->upkeep.task_count && !status; k++, ++*count)
            status = make_event(order, upkeeping, part, &part->upkeep.tasks[k], &texts[*count],
                                &events[*count]);
    }
    runnel_free(order);
    return status;
}

runnel_status runnel_write_upkeep_ics(const runnel_job *job, const runnel_upkeeping *upkeeping,
                                      const runnel_calendar_issue *issue, FILE *out) {
    const size_t most = upkeeping->part_count * RUNNEL_UPKEEP_TASKS;
    size_t count = 0;
    event_texts *texts = runnel_zeroed(most, sizeof *texts);
    runnel_event *events = runnel_zeroed(most, sizeof *events);
    runnel_status status = texts && events ? RUNNEL_OK : RUNNEL_E_NO_MEMORY;
    if (!status)
        status = make_events(job, upkeeping, texts, events, &count);
    const runnel_calendar calendar = {.name = job->name,
                                      .stamp =
                                          issue->stamp.year ? issue->stamp : upkeeping->delivered,
                                      .revision = issue->revision,
                                      .events = events,
                                      .count = count};
    if (!status)
        status = runnel_write_ics(&calendar, out);
    for (size_t i = 0; texts && i < most; i++) {
        runnel_free(texts[i].seed);
        runnel_free(texts[i].summary);
    }
    runnel_free(texts);
    runnel_free(events);
    return status;
}
