/* SPDX-License-Identifier: MIT */
/* The run's events. Boilers, vessels and actions put them into a queue; the run reads it, sorts them into the result by
 * time, and starts the actions that wait for them. */
#include "heatup/event_queue.h"

static bool grow(heatup_run *run, fv_heat_event **items, size_t *capacity, size_t count)
{
    void *list = *items;
    const bool good = fv_grow(&list, capacity, count, sizeof **items);
    if (good)
        *items = list;
    else
        fv_error(run->faults, FV_ERR_SYSTEM, run->context.plant->loc, "out of memory");
    return good;
}

void heatup_event(heatup_run *run, double time, fv_heat_event_kind kind, int boiler, int vessel, int action)
{
    heatup_queue *q = &run->events;
    if (grow(run, &q->items, &q->capacity, q->count + 1))
        q->items[q->count++] =
            (fv_heat_event){.time = time, .kind = kind, .boiler = boiler, .vessel = vessel, .action = action};
}

void heatup_events_note(heatup_run *run)
{
    heatup_queue *q = &run->events;
    fv_heat_result *r = run->result;
    for (size_t i = 0; i < q->count; i++) {
        if (!grow(run, &r->events, &run->event_capacity, r->event_count + 1))
            return;
        size_t at = r->event_count++;
        for (; at > 0 && r->events[at - 1].time > q->items[i].time; at--)
            r->events[at] = r->events[at - 1];
        r->events[at] = q->items[i];
    }
    q->count = 0;
}
