/* SPDX-License-Identifier: MIT */
/* One batch: the plant in time, and what it means for the day. */
#include "study/carry/parts.h"
#include "study/outcome.h"

#include <math.h>

static const double DAY = 86400.0;

bool carry_room(fv_arena *arena, const fv_plant *plant, fv_carry_batch *run)
{
    const size_t count = plant->vessel_count + 1;
    *run = (fv_carry_batch){.slowest = NAN,
                            .fastest = NAN,
                            .slowest_vessel = -1,
                            .fastest_vessel = -1,
                            .took = NAN,
                            .latest_vessel = -1,
                            .done = NAN,
                            .fuel = NAN,
                            .limit = FV_CARRY_LIMIT_UNKNOWN,
                            .without_limit = NAN};
    run->core = fv_arena_alloc(arena, count, sizeof *run->core);
    run->ample = fv_arena_alloc(arena, count, sizeof *run->ample);
    run->opened = fv_arena_alloc(arena, count, sizeof *run->opened);
    run->start = fv_arena_alloc(arena, count, sizeof *run->start);
    run->verdicts = fv_arena_alloc(arena, count, sizeof *run->verdicts);
    return run->core && run->ample && run->opened && run->start && run->verdicts;
}

static double or_never(double time)
{
    return isnan(time) ? INFINITY : time;
}

static void read_vessel(const fv_heat_result *result, size_t i, fv_carry_batch *run)
{
    const fv_vessel *vessel = result->plant->vessels[i];
    const fv_vessel_history *h = &result->vessels[i];
    const double core = or_never(h->core), took = core - h->opened;
    if (run->slowest_vessel < 0 || core > or_never(run->slowest)) {
        run->slowest = h->core;
        run->slowest_vessel = (int)i;
    }
    if (run->fastest_vessel < 0 || core < or_never(run->fastest)) {
        run->fastest = h->core;
        run->fastest_vessel = (int)i;
    }
    if (run->latest_vessel < 0 ||
        took / vessel->within.v > or_never(run->took) / result->plant->vessels[run->latest_vessel]->within.v) {
        run->took = isfinite(took) ? took : NAN;
        run->latest_vessel = (int)i;
    }
    run->chamber = fmax(run->chamber, h->pressure_most);
    run->starved += h->verdict == FV_STARVED;
    run->lagging += h->verdict == FV_LAGGING;
    run->done = fmax(run->done, or_never(h->hold));
    if (!isnan(h->hold))
        run->mass += fv_load_mass(&vessel->load);
    if (h->arrival == FV_NOT_DRY)
        run->limit = FV_CARRY_LIMIT_WATER;
}

static void read_boilers(const fv_heat_result *result, fv_carry_batch *run)
{
    double fuel = 0;
    bool named = false;
    for (size_t i = 0; i < result->boiler_count; i++) {
        const fv_boiler_history *b = &result->boilers[i];
        named = named || fv_is_set(result->plant->boilers[i]->fuel);
        run->pressure = fmax(run->pressure, b->pressure_most);
        run->steam += b->steam;
        run->water += b->water;
        fuel += b->fuel;
    }
    run->fuel = named ? fuel : NAN;
}

static void read_run(const fv_heat_result *result, const fv_carry_options *options, fv_carry_batch *run)
{
    run->ran = true;
    run->done = 0;
    for (size_t i = 0; i < result->vessel_count; i++) {
        const fv_vessel_history *h = &result->vessels[i];
        run->core[i] = h->core;
        run->opened[i] = h->opened;
        run->ample[i] = study_conduction(result, i);
        run->start[i] = fv_or(result->plant->vessels[i]->start, 0);
        run->verdicts[i] = h->verdict;
        if (h->verdict != FV_SHUT_OFF)
            read_vessel(result, i, run);
    }
    read_boilers(result, run);
    run->carries = run->starved == 0;
    run->done = isfinite(run->done) ? run->done : NAN;
    run->mass_per_day = run->mass / (run->done + options->turnaround) * DAY;
}

fv_status carry_batch(const fv_plant *plant, const fv_change *change, const fv_carry_options *options,
                      const carry_how *how, const fv_progress *progress, fv_carry_batch *run)
{
    const fv_change nothing = {0};
    fv_faults *faults = fv_faults_new();
    fv_plant *copy = faults ? fv_plant_copy(plant) : NULL;
    fv_status status = copy ? FV_OK : FV_FAIL;
    const bool good = copy && fv_change_apply(change ? change : &nothing, copy, faults) != FV_FAIL;
    fv_heat_options heat;
    fv_heat_defaults(&heat);
    heat.stop_at_core = how->follow == CARRY_TO_CORE;
    heat.stop_at_hold = how->follow == CARRY_TO_HOLD;
    heat.fineness = how->fineness;
    heat.until = isnan(how->until) ? heat.until : how->until;
    heat.cache = how->cache;
    fv_heat_result *result = good ? fv_heat_run(copy, &heat, progress, faults) : NULL;
    if (result ? result->stopped : fv_faults_blame_system(faults))
        status = FV_FAIL;
    else if (result)
        read_run(result, options, run);
    fv_heat_free(result);
    fv_plant_free(copy);
    fv_faults_free(faults);
    return status;
}

bool carry_is_better(const fv_carry_batch *a, const fv_carry_batch *b)
{
    if (a->ran != b->ran)
        return a->ran;
    if (a->starved != b->starved)
        return a->starved < b->starved;
    return or_never(a->done) < or_never(b->done);
}

const fv_carry_batch *fv_carry_batch_of(const fv_carry_row *row, fv_carry_manner manner)
{
    if (!row)
        return NULL;
    return manner == FV_CARRY_TOGETHER    ? &row->together
           : manner == FV_CARRY_STAGGERED ? &row->staggered
           : manner == FV_CARRY_THROTTLED ? &row->throttled
                                          : &row->worked;
}

const fv_change *fv_carry_change_of(const fv_carry_row *row, fv_carry_manner manner)
{
    static const fv_change nothing = {0};
    if (!row)
        return NULL;
    return manner == FV_CARRY_STAGGERED   ? &row->stagger
           : manner == FV_CARRY_THROTTLED ? &row->throttle
           : manner == FV_CARRY_WORKED    ? &row->work
                                          : &nothing;
}
