/* SPDX-License-Identifier: MIT */
/* One choice in time. */
#include "study/size/parts.h"

#include <math.h>

static const double CLOGGED = 0.2; /* one hole in five */
static const double HALF = 0.5;

static void read_figures(const fv_heat_result *result, fv_size_figures *figures)
{
    double longest = 0, shortest = INFINITY;
    *figures = (fv_size_figures){.ran = true, .fastest = INFINITY, .slowest_vessel = -1, .fastest_vessel = -1};
    for (size_t i = 0; i < result->vessel_count; i++) {
        const fv_vessel_history *h = &result->vessels[i];
        if (h->verdict == FV_SHUT_OFF)
            continue;
        figures->starved += h->verdict == FV_STARVED;
        figures->lagging += h->verdict == FV_LAGGING;
        const double core = isnan(h->core) ? INFINITY : h->core;
        const double took = isnan(h->core) ? INFINITY : h->core - h->opened;
        if (figures->slowest_vessel < 0 || core > figures->slowest) {
            figures->slowest = core;
            figures->slowest_vessel = (int)i;
        }
        if (figures->fastest_vessel < 0 || core < figures->fastest) {
            figures->fastest = core;
            figures->fastest_vessel = (int)i;
        }
        longest = fmax(longest, took);
        shortest = fmin(shortest, took);
    }
    figures->spread = isfinite(longest) && shortest > 0 ? longest / shortest : INFINITY;
    figures->slowest = isfinite(figures->slowest) ? figures->slowest : NAN;
    figures->fastest = isfinite(figures->fastest) ? figures->fastest : NAN;
    bool fuel = false;
    for (size_t i = 0; i < result->boiler_count; i++) {
        const fv_boiler_history *b = &result->boilers[i];
        fuel = fuel || fv_is_set(result->plant->boilers[i]->fuel);
        figures->fuel += b->fuel;
        figures->steam += b->steam;
        figures->water += b->water;
    }
    if (!fuel)
        figures->fuel = NAN;
}

static const fv_size_figures unknown = {
    .slowest = NAN, .fastest = NAN, .spread = INFINITY, .slowest_vessel = -1, .fastest_vessel = -1, .fuel = NAN};

/* A fifth of what is still open clogs. */
static void clog_coils(fv_plant *plant)
{
    for (size_t i = 0; i < plant->vessel_count; i++) {
        fv_value *clogged = &plant->vessels[i]->coil.clogged;
        *clogged = (fv_value){.v = 1 - (1 - clogged->v) * (1 - CLOGGED), .origin = FV_SETTING};
    }
}

fv_status size_follow(const fv_plant *plant, const fv_change *change, size_manner manner, fv_heat_cache *cache,
                      const fv_progress *progress, fv_size_figures *figures)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *copy = faults ? fv_plant_copy(plant) : NULL;
    fv_status status = copy ? FV_OK : FV_FAIL;
    *figures = unknown;
    bool good = copy && fv_change_apply(change, copy, faults) != FV_FAIL;
    if (good && manner == SIZE_CLOGGED) {
        clog_coils(copy);
        good = fv_plant_link(copy, faults) != FV_FAIL;
    }
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.fire = manner == SIZE_HALF_FIRE ? HALF : 1;
    options.cache = cache;
    fv_heat_result *result = good ? fv_heat_run(copy, &options, progress, faults) : NULL;
    if (result ? result->stopped : fv_faults_blame_system(faults))
        status = FV_FAIL;
    else if (result)
        read_figures(result, figures);
    fv_heat_free(result);
    fv_plant_free(copy);
    fv_faults_free(faults);
    return status;
}

void size_check_run(const fv_size_limits *limits, const fv_size_figures *figures, fv_size_check *checks)
{
    const double starved = figures->ran ? (double)figures->starved : NAN;
    checks[FV_LIMIT_FED] = (fv_size_check){.value = starved,
                                           .limit = 0,
                                           .excess = figures->ran ? starved : INFINITY,
                                           .at = figures->slowest_vessel,
                                           .kept = figures->ran && figures->starved == 0};
    checks[FV_LIMIT_SPREAD] = (fv_size_check){.value = figures->spread,
                                              .limit = limits->spread_most,
                                              .excess = figures->spread / limits->spread_most - 1,
                                              .at = figures->slowest_vessel,
                                              .kept = figures->spread <= limits->spread_most};
}
