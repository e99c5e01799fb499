/* SPDX-License-Identifier: MIT */
#include "study/handling.h"

#include "farvessel/flow.h"

#include <math.h>
#include <string.h>

/* Where a hand finds a valve's handle again: twentieths of its way, coarser where it is wide open. */
static const double openings[] = {1, 0.8, 0.7, 0.6, 0.55, 0.5, 0.45, 0.4, 0.35, 0.3, 0.25, 0.2, 0.15, 0.1};
/* Once a vessel is full, or its core is there. */
static const double throttles[] = {0.6, 0.5, 0.4, 0.35, 0.3, 0.25, 0.2, 0.15, 0.1};
#define COUNT(list) ((int)(sizeof(list) / sizeof *(list)))

/* Common practice, no source: minutes of a grower's time. */
static const double SET_VALVE = 1, MAKE_WASHER = 20;
static const double MM = 1e-3, WASHER_LEAST = 3e-3;
enum { STARTS = 129, WASHERS_MOST = 30 };

static bool is_free(const fv_plant *plant, size_t vessel)
{
    return fv_word(plant->vessels[vessel]->phase) != FV_PHASE_SHUT;
}

static void add(study_handling *h, study_knob knob)
{
    h->knobs[h->count++] = knob;
}

/* A thermostat has it in hand. */
static bool is_kept(const fv_plant *plant, const char *valve)
{
    for (size_t i = 0; i < plant->thermostat_count; i++)
        if (plant->thermostats[i]->valve && valve && strcmp(plant->thermostats[i]->valve, valve) == 0)
            return true;
    return false;
}

/* The first valve on a line that leads to this vessel alone, or else the last hose that does. */
static void add_flow(study_handling *h, size_t vessel, const study_ways *ways, fv_arena *arena, bool *failed)
{
    const fv_plant *plant = h->plant;
    size_t line, place;
    if (study_own_valve(plant, ways, vessel, &line, &place)) {
        const fv_fitting *f = plant->lines[line]->fittings[place];
        const char *path = fv_arena_printf(arena, "%s.fitting%zu", plant->lines[line]->part.id, place + 1);
        *failed = *failed || !path;
        if (is_kept(plant, path) || is_kept(plant, f->part.id))
            return;
        study_knob knob = {.kind = STUDY_KNOB_OPEN,
                           .vessel = vessel,
                           .path = path,
                           .attribute = "open",
                           .part = f->part.id ? f->part.id : path,
                           .now = f->open.v,
                           .places = COUNT(openings) + 1};
        add(h, knob);
        knob.path = knob.attribute = NULL;
        knob.places = COUNT(throttles) + 1;
        knob.kind = STUDY_KNOB_AT_FULL;
        add(h, knob);
        knob.kind = STUDY_KNOB_AT_CORE;
        add(h, knob);
        return;
    }
    const fv_line *hose = NULL;
    for (size_t i = 0; i < plant->line_count; i++)
        if (ways->kind[i] == WAY_OWN && study_on_way(ways, vessel, i) && plant->lines[i]->kind == FV_LINE_HOSE)
            hose = plant->lines[i];
    const int places = hose ? (int)fmin(WASHERS_MOST, ceil((hose->bore.v - WASHER_LEAST) / MM)) : 0;
    if (places > 1)
        add(h, (study_knob){.kind = STUDY_KNOB_WASHER,
                            .vessel = vessel,
                            .path = hose->part.id,
                            .attribute = "washer",
                            .part = hose->part.id,
                            .now = fv_or(hose->washer, hose->bore.v),
                            .bore = hose->bore.v,
                            .places = places});
}

bool study_handling_open(study_handling *h, const fv_plant *plant, const study_ways *ways, fv_arena *arena)
{
    bool failed = false;
    enum { PER_VESSEL = 4 };
    *h = (study_handling){.plant = plant};
    h->knobs = fv_arena_alloc(arena, PER_VESSEL * plant->vessel_count + 1, sizeof *h->knobs);
    for (size_t i = 0; h->knobs && i < plant->vessel_count; i++) {
        if (!is_free(plant, i))
            continue;
        add_flow(h, i, ways, arena, &failed);
        add(h, (study_knob){.kind = STUDY_KNOB_START,
                            .vessel = i,
                            .path = plant->vessels[i]->part.id,
                            .attribute = "start",
                            .part = plant->vessels[i]->part.id,
                            .now = fv_or(plant->vessels[i]->start, 0),
                            .places = STARTS});
    }
    return h->knobs && !failed;
}

double study_knob_value(const study_knob *knob, int place)
{
    if (knob->kind == STUDY_KNOB_START) /* where it waits already, place 1 is the lighting of the fire */
        return place == 0 ? knob->now : STUDY_START_STEP * (knob->now > 0 ? place - 1 : place);
    if (knob->kind == STUDY_KNOB_WASHER)
        return place == 0 ? knob->now : MM * (ceil(knob->bore / MM - 1e-9) - place);
    if (place == 0)
        return knob->now;
    return knob->kind == STUDY_KNOB_OPEN ? openings[place - 1] : throttles[place - 1];
}

/* How far its valve stands open when it is turned in the course of the run. */
static double open_before(const study_handling *h, const int *point, const study_knob *knob)
{
    const int open = study_knob_find(h, STUDY_KNOB_OPEN, knob->vessel);
    const int full = study_knob_find(h, STUDY_KNOB_AT_FULL, knob->vessel);
    if (knob->kind == STUDY_KNOB_AT_CORE && full >= 0 && point[full] > 0)
        return study_knob_value(&h->knobs[full], point[full]);
    return open >= 0 ? study_knob_value(&h->knobs[open], point[open]) : 1;
}

/* Whether the place changes anything: a valve is only turned down in the course of the run. */
bool study_handling_turns(const study_handling *h, const int *point, size_t i)
{
    const study_knob *knob = &h->knobs[i];
    if (point[i] == 0)
        return false;
    const double value = study_knob_value(knob, point[i]);
    if (knob->kind == STUDY_KNOB_AT_FULL || knob->kind == STUDY_KNOB_AT_CORE)
        return value < open_before(h, point, knob) - 1e-9;
    return fabs(value - knob->now) > 1e-9;
}

void study_handling_settings(const study_handling *h, const int *point, study_settings *s)
{
    for (size_t i = 0; i < h->count; i++) {
        const study_knob *knob = &h->knobs[i];
        if (!study_handling_turns(h, point, i))
            continue;
        const double value = study_knob_value(knob, point[i]);
        if (knob->path) {
            study_setting_add(s, knob->path, knob->attribute, value);
            continue;
        }
        const char *id = h->plant->vessels[knob->vessel]->part.id;
        const char *event = knob->kind == STUDY_KNOB_AT_FULL ? "full" : "core";
        const char *after = s->failed ? NULL : fv_arena_printf(s->arena, "%s %s", id, event);
        s->failed = s->failed || !after;
        study_action_add(s, &(fv_change_action){.after = after, .valve = knob->part, .value = value});
    }
}

study_effort study_handling_effort(const study_handling *h, const int *point)
{
    study_effort effort = {0};
    for (size_t i = 0; i < h->count; i++) {
        if (!study_handling_turns(h, point, i))
            continue;
        const study_knob_kind kind = h->knobs[i].kind;
        const bool before = kind == STUDY_KNOB_OPEN || kind == STUDY_KNOB_WASHER;
        effort.before += before;
        effort.during += !before;
        effort.minutes += kind == STUDY_KNOB_WASHER ? MAKE_WASHER : before ? SET_VALVE : STUDY_WALK;
    }
    return effort;
}

void study_effort_add(study_effort *effort, const study_effort *more)
{
    effort->money += more->money;
    effort->minutes += more->minutes;
    effort->before += more->before;
    effort->during += more->during;
}

int study_knob_find(const study_handling *h, study_knob_kind kind, size_t vessel)
{
    for (size_t i = 0; i < h->count; i++)
        if (h->knobs[i].kind == kind && h->knobs[i].vessel == vessel)
            return (int)i;
    return -1;
}

int study_knob_place(const study_knob *knob, double value)
{
    int best = 0;
    for (int i = 1; i < knob->places; i++)
        if (fabs(study_knob_value(knob, i) - value) < fabs(study_knob_value(knob, best) - value))
            best = i;
    return best;
}
