/* SPDX-License-Identifier: MIT */
#include "study/outcome.h"

#include <math.h>

static const double NEVER = 30 * 86400; /* s: a core that does not arrive is later than any that does */
static const double A_KELVIN = 3600;    /* s: and the later the colder its chamber stays */
static const double ROUNDING = 1e-3;    /* of a relief pressure */

bool study_outcome_room(fv_arena *arena, size_t vessels, study_outcome *o)
{
    double **arrays[] = {&o->core, &o->opened, &o->full, &o->hold, &o->ample, &o->chamber, &o->walls};
    bool good = true;
    for (size_t i = 0; i < sizeof arrays / sizeof *arrays; i++) {
        *arrays[i] = fv_arena_alloc(arena, vessels + 1, sizeof(double));
        good = good && *arrays[i];
    }
    o->verdicts = fv_arena_alloc(arena, vessels + 1, sizeof *o->verdicts);
    return good && o->verdicts;
}

double study_conduction(const fv_heat_result *result, size_t vessel)
{
    const bool bed = fv_word(result->plant->vessels[vessel]->load.form) == FV_FORM_BED;
    return bed ? 0 : result->vessels[vessel].core_ample;
}

/* Seconds beyond the allowed time. A load that steam in plenty does not bring there in time is as late whatever is
 * done: it counts by its core alone, or its steam would be opened the later for it. */
static double lateness(const fv_heat_result *result, size_t i)
{
    const fv_vessel_history *h = &result->vessels[i];
    const double within = result->plant->vessels[i]->within.v;
    if (isnan(h->core))
        return NEVER + (isnan(h->settles) ? 0 : A_KELVIN * fmax(0, result->plant->vessels[i]->target.v - h->settles));
    const double took = h->core - h->opened;
    if (study_conduction(result, i) > within)
        return 0;
    const bool broken = took <= within && h->verdict == FV_STARVED;
    return broken ? fmax(0, result->plant->vessels[i]->hold.v - h->hold_longest) : fmax(0, took - within);
}

static void read_vessel(const fv_heat_result *result, size_t i, const double *lids, study_outcome *o)
{
    const fv_vessel_history *h = &result->vessels[i];
    o->core[i] = h->core;
    o->opened[i] = h->opened;
    o->full[i] = h->full;
    o->hold[i] = h->hold;
    o->ample[i] = study_conduction(result, i);
    o->chamber[i] = h->pressure_most;
    o->walls[i] = h->heat_walls / (h->heat_walls + h->heat_load + h->heat_shell);
    o->verdicts[i] = h->verdict;
    o->chamber_pressure = fmax(o->chamber_pressure, h->pressure_most);
    const bool more = study_lifts_lid(h->pressure_most, lids[i]);
    o->unsafe += more;
    o->lifted += !more && study_lifts_lid(h->pressure_most, study_lid_bears(0));
    if (h->verdict == FV_SHUT_OFF)
        return;
    const double core = isnan(h->core) ? INFINITY : h->core;
    if (h->verdict == FV_STARVED) {
        o->late++;
        o->lateness += lateness(result, i);
    }
    o->first = fmin(o->first, core);
    o->last = fmax(o->last, core);
    o->sum += isfinite(core) ? core : result->end;
    o->expected = fmax(o->expected, core + result->plant->vessels[i]->hold.v);
    o->hold_least = fmin(o->hold_least, result->plant->vessels[i]->hold.v);
    o->done = fmax(o->done, isnan(h->hold) ? INFINITY : h->hold);
    if (!isnan(h->hold))
        o->mass += fv_load_mass(&result->plant->vessels[i]->load);
}

static void read_spread(const fv_heat_result *result, study_outcome *o)
{
    double most = 0, least = INFINITY;
    for (size_t i = 0; i < result->vessel_count; i++) {
        const fv_vessel_history *h = &result->vessels[i];
        if (h->verdict == FV_SHUT_OFF)
            continue;
        const double took = isnan(h->core) ? INFINITY : h->core - h->opened;
        most = fmax(most, took);
        least = fmin(least, took);
    }
    o->spread = isfinite(most) && least > 0 ? most / least : INFINITY;
}

static void read_boilers(const fv_heat_result *result, study_outcome *o)
{
    bool named = false;
    double fuel = 0;
    for (size_t i = 0; i < result->boiler_count; i++) {
        const fv_boiler *boiler = result->plant->boilers[i];
        const fv_boiler_history *b = &result->boilers[i];
        named = named || fv_is_set(boiler->fuel);
        fuel += b->fuel;
        o->water += b->water;
        o->steam += b->steam;
        o->boiler_pressure = fmax(o->boiler_pressure, b->pressure_most);
        o->unsafe += b->pressure_most > fv_or(boiler->relief, INFINITY) * (1 + ROUNDING);
        o->unsafe += isnan(b->dry) ? 0 : 1;
    }
    o->fuel = named ? fuel : NAN;
}

void study_outcome_read(const fv_heat_result *result, const double *lids, study_outcome *o)
{
    o->ran = true;
    o->unsafe = o->lifted = o->late = 0;
    o->lateness = o->last = o->expected = o->done = o->sum = o->water = o->steam = o->mass = 0;
    o->boiler_pressure = o->chamber_pressure = 0;
    o->first = o->hold_least = INFINITY;
    for (size_t i = 0; i < result->vessel_count; i++)
        read_vessel(result, i, lids, o);
    read_boilers(result, o);
    read_spread(result, o);
    o->cut = result->given_up || (!isfinite(o->last) && result->end >= o->until);
    o->done = isfinite(o->done) && o->followed ? o->done : NAN;
}

size_t study_last_vessel(const study_outcome *o, size_t vessels)
{
    size_t latest = 0;
    double last = -1;
    for (size_t i = 0; i < vessels; i++) {
        const double core = o->verdicts[i] == FV_SHUT_OFF ? -1 : isnan(o->core[i]) ? INFINITY : o->core[i];
        latest = core > last ? i : latest;
        last = fmax(last, core);
    }
    return latest;
}
