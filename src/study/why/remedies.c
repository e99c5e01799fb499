/* SPDX-License-Identifier: MIT */
/* Putting remedies together, and those of the boilers. */
#include "study/why/remedies.h"

#include <math.h>
#include <string.h>

enum { STEPS = 2 };
static const double CONTROL_MOST = 0.5e5; /* Pa: above it directive 2014/68/EU applies */
static const double CONTROL_GROWTH = 2;   /* times the control pressure */
static const double BELOW_RELIEF = 0.9;
static const double WORTH = 1.05; /* a control pressure raised by less is not worth trying */

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

void study_remedy_end(study_remedies *r)
{
    if (r->open && r->list[r->count].change.count > 0)
        r->count++;
    r->open = false;
}

/* ---- boilers ---- */

static void more_fire(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_FIRE, FV_EFFORT_FREE);
    for (size_t i = 0; i < r->plant->boiler_count; i++) {
        const fv_boiler *b = r->plant->boilers[i];
        if (b->fire.v < 1)
            study_remedy_set(r, b->part.id, b->fire.v, 1, "fire", "%s", b->part.id);
    }
    study_remedy_end(r);
}

static void more_pressure(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_CONTROL, FV_EFFORT_FREE);
    for (size_t i = 0; i < r->plant->boiler_count; i++) {
        const fv_boiler *b = r->plant->boilers[i];
        const double most = fmin(CONTROL_MOST, BELOW_RELIEF * fv_or(b->relief, INFINITY));
        const double to = 100 * floor(fmin(CONTROL_GROWTH * b->holds.v, most) / 100); /* whole millibars */
        if (to > WORTH * b->holds.v)
            study_remedy_set(r, b->part.id, b->holds.v, to, "holds", "%s", b->part.id);
    }
    study_remedy_end(r);
}

static void bigger_boiler(study_remedies *r, int step)
{
    const fv_plant *plant = r->plant;
    size_t smallest = 0;
    study_size size;
    for (size_t i = 1; i < plant->boiler_count; i++)
        if (plant->boilers[i]->output.v < plant->boilers[smallest]->output.v)
            smallest = i;
    const fv_boiler *b = plant->boilers[smallest];
    if (!study_size_next(plant, FV_STOCK_BOILER, b->output.v, step, &size))
        return;
    study_remedy_begin(r, FV_REMEDY_BOILER, FV_EFFORT_BUY);
    study_remedy_set(r, b->part.id, b->output.v, size.size, "output", "%s", b->part.id);
    study_remedy_size(r, &size);
    study_remedy_cost(r, size.price);
    study_remedy_end(r);
}

bool study_remedies_list(study_remedies *r)
{
    study_remedies_of_lines(r);
    study_remedies_of_vessels(r);
    more_fire(r);
    more_pressure(r);
    for (int step = 1; step <= STEPS; step++)
        bigger_boiler(r, step);
    return !r->failed;
}
