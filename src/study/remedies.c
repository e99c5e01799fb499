/* SPDX-License-Identifier: MIT */
/* Putting remedies together, setting by setting. */
#include "study/remedies.h"

#include <math.h>
#include <string.h>

/* Lists in the arena grow by doubling; the old ones stay until the answer is freed. */
static void *grown(fv_arena *arena, const void *list, size_t count, size_t *capacity, size_t size)
{
    *capacity = *capacity ? 2 * *capacity : 8;
    void *bigger = fv_arena_alloc(arena, *capacity, size);
    if (bigger && count)
        memcpy(bigger, list, count * size);
    return bigger;
}

void study_remedy_begin(study_remedies *r, fv_remedy_kind kind, fv_effort effort)
{
    if (r->count == r->capacity && !r->failed) {
        void *list = grown(r->arena, r->list, r->count, &r->capacity, sizeof *r->list);
        r->failed = !list;
        r->list = list ? list : r->list;
    }
    r->open = !r->failed;
    r->settings_capacity = 0;
    if (r->open)
        r->list[r->count] = (fv_why_remedy){.kind = kind, .effort = effort, .from = NAN, .to = NAN};
}

void study_remedy_set(study_remedies *r, const char *part, double from, double to, const char *attribute,
                      const char *format, ...)
{
    if (!r->open)
        return;
    fv_why_remedy *remedy = &r->list[r->count];
    fv_change *change = &remedy->change;
    fv_text path = {0};
    va_list args;
    va_start(args, format);
    fv_text_addv(&path, format, args);
    va_end(args);
    if (change->count == r->settings_capacity) {
        void *list = grown(r->arena, change->settings, change->count, &r->settings_capacity, sizeof *change->settings);
        r->failed = r->failed || !list;
        change->settings = list ? list : change->settings;
    }
    const char *kept = path.failed ? NULL : fv_arena_copy(r->arena, path.text);
    r->failed = r->failed || !kept;
    r->open = !r->failed;
    fv_text_free(&path);
    if (r->failed)
        return;
    if (change->count == 0) {
        remedy->part = part;
        remedy->part_count = 1;
        remedy->from = from;
        remedy->to = to;
    } else if (strcmp(part, remedy->part) != 0) {
        remedy->part_count++;
    }
    change->settings[change->count++] = (fv_setting){.path = kept, .attribute = attribute, .si = to};
}

void study_remedy_take(study_remedies *r, const fv_change *change, double minutes)
{
    if (!r->open || change->count == 0)
        return;
    fv_why_remedy *remedy = &r->list[r->count];
    remedy->change = *change;
    remedy->part = change->settings[0].path;
    remedy->part_count = change->count + change->action_count;
    remedy->minutes = minutes;
}

void study_remedy_cost(study_remedies *r, double cost)
{
    if (r->open)
        r->list[r->count].cost += cost;
}

void study_remedy_size(study_remedies *r, const study_size *size)
{
    if (r->open)
        r->list[r->count].from_stock = size->from_stock;
}

bool study_remedy_is_move(fv_remedy_kind kind)
{
    switch (kind) {
    case FV_REMEDY_VALVE_OPEN:
    case FV_REMEDY_VALVES_OTHERS:
    case FV_REMEDY_STAGGER:
    case FV_REMEDY_LESS_LOAD:
        return false;
    default:
        return true;
    }
}

double study_remedy_money(const fv_why_remedy *remedy)
{
    return isnan(remedy->cost) && remedy->effort != FV_EFFORT_BUY ? 0 : remedy->cost;
}

/* Common practice, no source. A seal is a bucket under the drain. */
static double minutes_of(const fv_why_remedy *remedy)
{
    static const double each[] = {[FV_EFFORT_FREE] = 10, [FV_EFFORT_SMALL] = 45, [FV_EFFORT_BUY] = 60}, bucket = 10;
    return (remedy->kind == FV_REMEDY_SEAL ? bucket : each[remedy->effort]) * (double)remedy->part_count;
}

void study_remedy_end(study_remedies *r)
{
    fv_why_remedy *remedy = r->open ? &r->list[r->count] : NULL;
    if (remedy && remedy->minutes == 0)
        remedy->minutes = minutes_of(remedy);
    if (remedy && remedy->change.count > 0)
        r->count++;
    r->open = false;
}
