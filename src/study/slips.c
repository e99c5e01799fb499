/* SPDX-License-Identifier: MIT */
#include "study/slips.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Common practice, no source: how near to a mark a hand sets a hose's valve, and how late a busy grower is. */
static const double POINTS = 5, SHARE = 0.1; /* of the whole way, of the opening */
static const double LATE = 600;              /* s */
static const double LONG_BEFORE = 0.8;       /* of the time until a vessel is full */
static const double ERRS = 0.005;            /* by how much of a time rough runs err */
enum { LOOKED_AT = 2 };                      /* in full: rough runs may take the second worst for the worst */

const char *fv_slip_word(fv_slip_kind kind)
{
    static const char *const words[] = {"none", "narrower", "wider", "later"};
    return words[kind];
}

/* Whole per cent, so that it can be typed as it is printed. */
static double missed(double open, int sign)
{
    const double points = fmax(POINTS, round(100 * SHARE * open));
    return fmin(1, fmax(0, round(100 * open + sign * points) / 100));
}

static bool copy(const fv_change *change, fv_arena *arena, fv_change *own)
{
    *own = *change;
    own->settings = fv_arena_alloc(arena, change->count + 1, sizeof *own->settings);
    own->actions = fv_arena_alloc(arena, change->action_count + 1, sizeof *own->actions);
    if (!own->settings || !own->actions)
        return false;
    if (change->count > 0)
        memcpy(own->settings, change->settings, change->count * sizeof *own->settings);
    if (change->action_count > 0)
        memcpy(own->actions, change->actions, change->action_count * sizeof *own->actions);
    return true;
}

/* One value of the change otherwise: setting i, or action i. */
static bool add(study_slips *slips, const fv_change *change, size_t i, bool is_action, fv_slip slip, fv_arena *arena)
{
    fv_change *own = &slips->changes[slips->count];
    if (!copy(change, arena, own))
        return false;
    if (!is_action)
        own->settings[i].si = slip.to;
    else if (slip.kind == FV_SLIP_LATER)
        own->actions[i].at += LATE;
    else
        own->actions[i].value = slip.to;
    slip.last = -1;
    slips->list[slips->count++] = slip;
    return true;
}

static bool add_valve(study_slips *slips, const fv_change *change, size_t i, bool is_action, fv_slip slip,
                      fv_arena *arena)
{
    bool good = true;
    for (int sign = -1; sign <= 1 && good && slip.from > 0 && slip.from < 1; sign += 2) {
        slip.kind = sign < 0 ? FV_SLIP_NARROWER : FV_SLIP_WIDER;
        slip.to = missed(slip.from, sign);
        good = add(slips, change, i, is_action, slip, arena);
    }
    return good;
}

bool study_slips_list(const fv_change *change, fv_arena *arena, study_slips *slips)
{
    const size_t most = 2 * change->count + 3 * change->action_count + 1;
    *slips = (study_slips){.list = fv_arena_alloc(arena, most, sizeof *slips->list),
                           .changes = fv_arena_alloc(arena, most, sizeof *slips->changes)};
    bool good = slips->list && slips->changes;
    for (size_t i = 0; i < change->count && good; i++) {
        const fv_setting *s = &change->settings[i];
        fv_slip slip = {.part = s->path, .from = s->si, .walls = NAN};
        if (strcmp(s->attribute, "open") == 0)
            good = add_valve(slips, change, i, false, slip, arena);
        slip.kind = FV_SLIP_LATER;
        slip.vessel = slip.part;
        slip.to = slip.from + LATE;
        if (strcmp(s->attribute, "start") == 0)
            good = add(slips, change, i, false, slip, arena);
    }
    for (size_t i = 0; i < change->action_count && good; i++) {
        const fv_change_action *a = &change->actions[i];
        fv_slip slip = {.part = a->valve, .vessel = a->vessel, .after = a->after, .from = a->value, .walls = NAN};
        if (a->boiler) /* once the last core is there, later only costs fuel */
            continue;
        good = !a->valve || add_valve(slips, change, i, true, slip, arena);
        slip.kind = FV_SLIP_LATER;
        slip.from = a->at;
        slip.to = a->at + LATE;
        good = good && add(slips, change, i, true, slip, arena);
    }
    return good;
}

study_ending study_slips_evaluate(study_evaluator *e, const study_slips *slips, double fineness,
                                  const study_outcome **outcomes)
{
    study_ask *asks = calloc(slips->count + 1, sizeof *asks);
    if (!asks)
        return STUDY_FAILED;
    for (size_t i = 0; i < slips->count; i++)
        asks[i] = (study_ask){.change = &slips->changes[i],
                              .follow = fineness >= 1 || slips->changes[i].action_count > 0,
                              .fineness = fineness,
                              .until = INFINITY};
    const study_ending ending = study_evaluate(e, asks, slips->count, outcomes);
    free(asks);
    return ending;
}

/* Whether a vessel that is in time as planned is not, or may not be. */
static bool is_hit(const fv_plant *plant, const study_outcome *slipped, const study_outcome *planned, size_t i)
{
    const double took = slipped->core[i] - slipped->opened[i], then = planned->core[i] - planned->opened[i];
    const bool near = slipped->fineness < 1 && took > then && (1 + ERRS) * took > plant->vessels[i]->within.v;
    return planned->verdicts[i] != FV_STARVED && (slipped->verdicts[i] == FV_STARVED || near);
}

size_t study_slip_harm(const fv_plant *plant, const study_outcome *slipped, const study_outcome *planned)
{
    size_t hit = 0;
    if (!slipped->ran) /* nothing is known of it */
        return 0;
    for (size_t i = 0; i < plant->vessel_count; i++)
        hit += is_hit(plant, slipped, planned, i);
    return hit + (slipped->unsafe > planned->unsafe ? slipped->unsafe - planned->unsafe : 0);
}

bool study_slip_is_worse(const fv_plant *plant, const study_outcome *a, const study_outcome *b,
                         const study_outcome *planned)
{
    const size_t x = study_slip_harm(plant, a, planned), y = study_slip_harm(plant, b, planned);
    if (a->ran != b->ran)
        return a->ran;
    if (!a->ran || x != y)
        return x > y;
    return x > 0 && a->lateness != b->lateness ? a->lateness > b->lateness : a->last > b->last;
}

/* Whether all others are full of steam in four fifths of its time. */
static bool fills_last(const fv_plant *plant, const study_outcome *o, size_t vessel)
{
    const double full = isnan(o->full[vessel]) ? INFINITY : o->full[vessel];
    bool all = plant->vessel_count > 1;
    for (size_t i = 0; i < plant->vessel_count; i++)
        all = all && (i == vessel || o->verdicts[i] == FV_SHUT_OFF || o->full[i] < LONG_BEFORE * full);
    return all;
}

/* Whom it hits: of those late who would not be the latest, else the last. */
static void tell(const fv_plant *plant, const study_outcome *o, const study_outcome *planned, fv_slip *slip)
{
    double latest = -1;
    slip->lifts = o->ran && o->unsafe > planned->unsafe;
    for (size_t i = 0; i < plant->vessel_count && o->ran; i++)
        slip->late += is_hit(plant, o, planned, i);
    for (size_t i = 0; i < plant->vessel_count && o->ran; i++) {
        const bool hit = is_hit(plant, o, planned, i);
        const double core = isnan(o->core[i]) ? INFINITY : o->core[i];
        if (o->verdicts[i] == FV_SHUT_OFF || (slip->late > 0 && !hit) || core <= latest)
            continue;
        latest = core;
        slip->last = (int)i;
        slip->core = core;
        slip->walls = o->walls[i];
        slip->others_full = fills_last(plant, o, i);
        slip->breaks = hit && core - o->opened[i] <= plant->vessels[i]->within.v;
    }
    if (slip->late == 0 && slip->core < planned->last) /* every slip gains: at the latest it is as planned */
        slip->core = planned->last;
}

static void swap(study_slips *slips, const study_outcome **outcomes, size_t a, size_t b)
{
    const fv_slip slip = slips->list[a];
    const fv_change change = slips->changes[a];
    const study_outcome *outcome = outcomes[a];
    slips->list[a] = slips->list[b];
    slips->changes[a] = slips->changes[b];
    outcomes[a] = outcomes[b];
    slips->list[b] = slip;
    slips->changes[b] = change;
    outcomes[b] = outcome;
}

/* The worst `count` first. */
static void rank(const fv_plant *plant, study_slips *slips, const study_outcome **outcomes,
                 const study_outcome *planned, size_t count)
{
    for (size_t k = 0; k < count && k < slips->count; k++)
        for (size_t i = k + 1; i < slips->count; i++)
            if (study_slip_is_worse(plant, outcomes[i], outcomes[k], planned))
                swap(slips, outcomes, i, k);
}

study_ending study_slips_worst(study_evaluator *e, const fv_plant *plant, const fv_change *change,
                               const study_outcome *planned, fv_arena *arena, fv_slip *worst)
{
    study_slips slips;
    *worst = (fv_slip){.kind = FV_SLIP_NONE, .last = -1, .core = NAN, .walls = NAN};
    if (!study_slips_list(change, arena, &slips))
        return STUDY_FAILED;
    const size_t tried = slips.count;
    const study_outcome **outcomes = fv_arena_alloc(arena, tried + 1, sizeof(study_outcome *));
    study_ending ending = outcomes ? study_slips_evaluate(e, &slips, STUDY_ROUGH, outcomes) : STUDY_FAILED;
    if (ending == STUDY_DONE && tried > 0) {
        rank(plant, &slips, outcomes, planned, LOOKED_AT);
        slips.count = tried < LOOKED_AT ? tried : LOOKED_AT;
        ending = study_slips_evaluate(e, &slips, 1, outcomes);
    }
    if (ending != STUDY_DONE || tried == 0)
        return ending;
    rank(plant, &slips, outcomes, planned, 1);
    bool known = true;
    size_t later = 0;
    for (size_t i = 0; i < tried; i++) {
        later += slips.list[i].kind == FV_SLIP_LATER;
        known = known && outcomes[i]->ran;
    }
    if (known || study_slip_harm(plant, outcomes[0], planned) > 0) {
        *worst = slips.list[0];
        tell(plant, outcomes[0], planned, worst);
    }
    worst->others = later;
    worst->valves = tried - later;
    return ending;
}
