/* SPDX-License-Identifier: MIT */
/* Happenings are queued by those below (boilers, events of vessels, actions) and read by the run above, which notes
 * them and lets actions hear of them: whoever queues one need not know who waits for it. */
#include "heatup/happenings.h"

static bool grow(heatup_run *run, fv_happening **items, size_t *capacity, size_t count)
{
    void *list = *items;
    const bool good = fv_grow(&list, capacity, count, sizeof **items);
    if (good)
        *items = list;
    else
        fv_error(run->faults, FV_ERR_SYSTEM, run->context.plant->loc, "out of memory");
    return good;
}

void heatup_happen(heatup_run *run, double time, fv_happening_kind kind, int boiler, int vessel, int action)
{
    heatup_queue *q = &run->happened;
    if (grow(run, &q->items, &q->capacity, q->count + 1))
        q->items[q->count++] =
            (fv_happening){.time = time, .kind = kind, .boiler = boiler, .vessel = vessel, .action = action};
}

void heatup_happenings_note(heatup_run *run)
{
    heatup_queue *q = &run->happened;
    fv_heat_result *r = run->result;
    for (size_t i = 0; i < q->count; i++) {
        if (!grow(run, &r->happenings, &run->happening_capacity, r->happening_count + 1))
            return;
        size_t at = r->happening_count++;
        for (; at > 0 && r->happenings[at - 1].time > q->items[i].time; at--)
            r->happenings[at] = r->happenings[at - 1];
        r->happenings[at] = q->items[i];
    }
    q->count = 0;
}
