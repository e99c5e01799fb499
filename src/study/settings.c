/* SPDX-License-Identifier: MIT */
#include "study/settings.h"

#include "farvessel/steady.h"

#include <math.h>
#include <string.h>

static const double BARB_STEP = 2000.0; /* barbs come in half millimetres */

void study_keep_packing(fv_plant *plant)
{
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (fv_packing_is_silent(plant->vessels[i]))
            plant->vessels[i]->load.packing.origin = FV_SETTING;
}

fv_status study_keep_vessels(fv_plant *plant, size_t count, fv_faults *faults)
{
    if (count > plant->vessel_count)
        return fv_error(faults, FV_ERR_INPUT, plant->loc, "%zu vessels: the plant has %zu", count, plant->vessel_count);
    for (size_t i = count; i < plant->vessel_count; i++)
        plant->vessels[i]->phase = (fv_value){.v = FV_PHASE_SHUT, .origin = FV_SETTING};
    return fv_plant_link(plant, faults);
}

void study_settings_open(study_settings *settings)
{
    *settings = (study_settings){.arena = fv_arena_new()};
    settings->failed = !settings->arena;
}

void study_settings_free(study_settings *settings)
{
    fv_arena_free(settings->arena);
    *settings = (study_settings){0};
}

/* Room for one more in a list in the arena: the list, or a longer copy of it. */
static void *room(study_settings *s, const void *list, size_t count, size_t *capacity, size_t size)
{
    enum { FEW = 8 };
    if (s->failed || count < *capacity)
        return (void *)list;
    void *longer = fv_arena_alloc(s->arena, count ? 2 * count : FEW, size);
    s->failed = !longer;
    if (longer && count)
        memcpy(longer, list, count * size);
    *capacity = longer ? (count ? 2 * count : FEW) : *capacity;
    return longer ? longer : (void *)list;
}

/* The path must lie in the arena already. */
static void push(study_settings *s, const char *path, const char *attribute, double si)
{
    s->failed = s->failed || !path;
    s->change.settings = room(s, s->change.settings, s->change.count, &s->capacity, sizeof *s->change.settings);
    if (!s->failed)
        s->change.settings[s->change.count++] = (fv_setting){path, attribute, si};
}

void study_setting_add(study_settings *settings, const char *path, const char *attribute, double si)
{
    if (!settings->failed)
        push(settings, fv_arena_copy(settings->arena, path), attribute, si);
}

static const char *kept(study_settings *s, const char *text)
{
    const char *copy = text ? fv_arena_copy(s->arena, text) : NULL;
    s->failed = s->failed || (text && !copy);
    return copy;
}

void study_action_add(study_settings *s, const fv_change_action *action)
{
    s->change.actions =
        room(s, s->change.actions, s->change.action_count, &s->action_capacity, sizeof *s->change.actions);
    if (s->failed)
        return;
    fv_change_action *a = &s->change.actions[s->change.action_count++];
    *a = *action;
    a->after = kept(s, action->after);
    a->boiler = kept(s, action->boiler);
    a->valve = kept(s, action->valve);
    a->vessel = kept(s, action->vessel);
}

bool study_changes_meet(const fv_change *a, const fv_change *b)
{
    for (size_t i = 0; i < a->count; i++)
        for (size_t j = 0; j < b->count; j++)
            if (strcmp(a->settings[i].path, b->settings[j].path) == 0 &&
                strcmp(a->settings[i].attribute, b->settings[j].attribute) == 0)
                return true;
    return false;
}

void study_change_add(study_settings *s, const fv_change *change)
{
    for (size_t i = 0; i < change->count; i++)
        study_setting_add(s, change->settings[i].path, change->settings[i].attribute, change->settings[i].si);
    for (size_t i = 0; i < change->action_count; i++)
        study_action_add(s, &change->actions[i]);
}

/* One value of parts that may be like each other. */
typedef struct {
    const fv_part **part;
    fv_value *now;
    double *wish; /* NaN: as it is */
    bool *kind;   /* a template: it wishes what all that take after it wish */
    int *parent;  /* -1: none */
    bool *settled;
    size_t count;
    const char *child; /* of the path: ".coil", or "" */
    const char *attribute;
} wishes;

static bool is_same(double a, double b)
{
    return (isnan(a) && isnan(b)) || a == b;
}

static bool is_own(fv_value value)
{
    return value.origin >= FV_GIVEN;
}

/* The kind whose setting reaches a part, by way of others that it may be like; -1: what it has stays. */
static int taken_from(const wishes *w, size_t i)
{
    int from = is_own(w->now[i]) ? -1 : w->parent[i];
    while (from >= 0 && !w->kind[from])
        from = is_own(w->now[from]) ? -1 : w->parent[from];
    return from;
}

/* The value wanted of all parts that are of this kind; its own value where they differ or there are none. */
static double common_wish(const wishes *w, size_t kind)
{
    double common = NAN;
    bool any = false;
    for (size_t i = 0; i < w->count; i++) {
        if (taken_from(w, i) != (int)kind)
            continue;
        const double wish = w->kind[i] ? common_wish(w, i) : isnan(w->wish[i]) ? w->now[i].v : w->wish[i];
        if (any && !is_same(wish, common))
            return w->now[kind].v;
        common = wish;
        any = true;
    }
    return any ? common : w->now[kind].v;
}

/* Gives the value that part i will have, and adds its setting where it would not come by itself. */
static double settle(study_settings *s, wishes *w, size_t i)
{
    const double want = w->kind[i] ? common_wish(w, i) : isnan(w->wish[i]) ? w->now[i].v : w->wish[i];
    if (w->settled[i])
        return want;
    w->settled[i] = true;
    const int from = taken_from(w, i);
    const double comes = from >= 0 ? settle(s, w, (size_t)from) : w->now[i].v;
    if (is_same(want, comes))
        return want;
    s->unsayable = s->unsayable || isnan(want); /* nothing can be made unsaid */
    s->failed = s->failed || s->unsayable;
    if (!s->failed)
        push(s, fv_arena_printf(s->arena, "%s%s", w->part[i]->id, w->child), w->attribute, want);
    return want;
}

static bool open_wishes(study_settings *s, wishes *w, size_t count, const char *child, const char *attribute)
{
    *w = (wishes){.count = count, .child = child, .attribute = attribute};
    if (s->failed)
        return false;
    w->part = fv_arena_alloc(s->arena, count + 1, sizeof *w->part);
    w->now = fv_arena_alloc(s->arena, count + 1, sizeof *w->now);
    w->wish = fv_arena_alloc(s->arena, count + 1, sizeof *w->wish);
    w->kind = fv_arena_alloc(s->arena, count + 1, sizeof *w->kind);
    w->parent = fv_arena_alloc(s->arena, count + 1, sizeof *w->parent);
    w->settled = fv_arena_alloc(s->arena, count + 1, sizeof *w->settled);
    s->failed = !w->part || !w->now || !w->wish || !w->kind || !w->parent || !w->settled;
    return !s->failed;
}

static void find_parents(wishes *w)
{
    for (size_t i = 0; i < w->count; i++) {
        w->parent[i] = -1;
        for (size_t j = 0; j < w->count && w->part[i]->like; j++)
            if (w->part[j]->id && strcmp(w->part[j]->id, w->part[i]->like) == 0)
                w->parent[i] = (int)j;
    }
}

void study_wish_coils(study_settings *settings, const fv_plant *plant, const char *attribute, const double *wish)
{
    const fv_attr *attr = fv_attr_find(fv_element_find("coil"), attribute);
    wishes w;
    if (!open_wishes(settings, &w, plant->vessel_count + plant->kind_count, ".coil", attribute))
        return;
    for (size_t i = 0; i < w.count; i++) {
        w.kind[i] = i >= plant->vessel_count;
        fv_vessel *vessel = w.kind[i] ? plant->kinds[i - plant->vessel_count] : plant->vessels[i];
        w.part[i] = &vessel->part;
        w.now[i] = *fv_attr_value(&vessel->coil, attr);
        w.wish[i] = w.kind[i] ? NAN : wish[i];
    }
    find_parents(&w);
    for (size_t i = plant->vessel_count; i < w.count; i++)
        settle(settings, &w, i);
    for (size_t i = 0; i < plant->vessel_count; i++)
        settle(settings, &w, i);
}

void study_wish_listed_holes(study_settings *settings, const fv_plant *plant, size_t vessel, double drill)
{
    const fv_vessel *v = plant->vessels[vessel];
    for (size_t i = 0; i < v->coil.hole_count && !settings->failed; i++)
        if (v->coil.hole[i]->drill.v != drill)
            push(settings, fv_arena_printf(settings->arena, "%s.hole%zu", v->part.id, i + 1), "drill", drill);
}

static bool goes_with_line(const fv_line *line, const fv_fitting *fitting)
{
    return (fitting->kind == FV_FITTING_BARB || fitting->kind == FV_FITTING_UNION) && fv_is_set(fitting->bore) &&
           fitting->bore.v < line->bore.v;
}

/* Narrower than the line, however little. */
static double exchanged(const fv_line *line, const fv_fitting *fitting, double bore)
{
    const double share = fitting->bore.v / line->bore.v;
    double step = round(share * bore * BARB_STEP);
    while (step > 1.0 && step / BARB_STEP >= bore)
        step -= 1.0;
    return step / BARB_STEP < bore ? step / BARB_STEP : share * bore;
}

/* Fitting k of every line. */
static void wish_fittings(study_settings *settings, const fv_plant *plant, size_t k, const double *bores)
{
    char child[32] = ".fitting";
    wishes w;
    fv_text name = {0};
    fv_text_add(&name, ".fitting%zu", k + 1);
    settings->failed = settings->failed || name.failed;
    if (!settings->failed)
        strncpy(child, name.text, sizeof child - 1);
    fv_text_free(&name);
    if (!open_wishes(settings, &w, plant->line_count, child, "bore"))
        return;
    for (size_t i = 0; i < w.count; i++) {
        const fv_line *line = plant->lines[i];
        const fv_fitting *fitting = k < line->fitting_count ? line->fittings[k] : NULL;
        w.part[i] = &line->part;
        w.now[i] = fitting ? fitting->bore : (fv_value){.v = NAN};
        w.wish[i] =
            fitting && !isnan(bores[i]) && goes_with_line(line, fitting) ? exchanged(line, fitting, bores[i]) : NAN;
    }
    find_parents(&w);
    for (size_t i = 0; i < w.count; i++)
        if (k < plant->lines[i]->fitting_count)
            settle(settings, &w, i);
}

void study_wish_bores(study_settings *settings, const fv_plant *plant, const double *wish)
{
    wishes w;
    size_t most = 0;
    if (!open_wishes(settings, &w, plant->line_count, "", "bore"))
        return;
    for (size_t i = 0; i < w.count; i++) {
        w.part[i] = &plant->lines[i]->part;
        w.now[i] = plant->lines[i]->bore;
        w.wish[i] = wish[i];
        if (!isnan(wish[i]) && plant->lines[i]->fitting_count > most)
            most = plant->lines[i]->fitting_count;
    }
    find_parents(&w);
    for (size_t i = 0; i < w.count; i++)
        settle(settings, &w, i);
    for (size_t k = 0; k < most; k++)
        wish_fittings(settings, plant, k, wish);
}
