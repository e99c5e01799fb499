/* SPDX-License-Identifier: MIT */
#include "study/why/tries.h"

#include "study/ensemble.h"

#include <math.h>
#include <stdio.h>

bool study_try_room(fv_arena *arena, size_t vessels, study_try *try)
{
    try->took = fv_arena_alloc(arena, vessels + 1, sizeof(double));
    try->core = fv_arena_alloc(arena, vessels + 1, sizeof(double));
    try->chamber = fv_arena_alloc(arena, vessels + 1, sizeof(double));
    return try->took && try->core && try->chamber;
}

void study_try_read(const fv_heat_result *result, study_try *try)
{
    for (size_t i = 0; i < result->vessel_count; i++) {
        const fv_vessel_history *h = &result->vessels[i];
        try->core[i] = h->core;
        try->took[i] = h->core - h->opened;
        try->chamber[i] = h->pressure_most;
    }
    for (size_t i = 0; i < result->boiler_count; i++) {
        const double p = result->boilers[i].pressure_most;
        try->pressure = fmax(try->pressure, p);
        try->over_relief = try->over_relief || p > fv_or(result->plant->boilers[i]->relief, INFINITY);
    }
}

static fv_plant *changed_plant(const study_basis *basis, const study_try *try, fv_faults *faults)
{
    if (try->change)
        return fv_change_copy(try->change, basis->plant, faults);
    fv_plant *copy = fv_plant_copy(basis->plant);
    if (copy && study_idealize(basis, try->causes, try->only, copy, NULL, faults) == FV_OK)
        return copy;
    fv_plant_free(copy);
    return NULL;
}

static void keep_reason(const fv_faults *faults, study_try *try)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        if (!fv_faults_at(faults, i)->caution) {
            snprintf(try->reason, sizeof try->reason, "%s", fv_faults_at(faults, i)->text);
            return;
        }
}

typedef struct {
    const study_basis *basis;
    study_try *tries;
    study_caches *caches;
} batch;

static fv_status run_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const batch *b = context;
    study_try *try = &b->tries[index];
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? changed_plant(b->basis, try, faults) : NULL;
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.cache = study_cache(b->caches, worker);
    options.until = try->until;
    options.stop_at_core = true;
    fv_heat_result *result = plant ? study_run_somehow(plant, &options, progress, faults) : NULL;
    if (result && !result->stopped)
        study_try_read(result, try);
    const bool memory = !result && fv_faults_blame_system(faults);
    keep_reason(faults, try);
    try->failed = !result;
    fv_heat_free(result);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return memory ? FV_FAIL : FV_OK;
}

study_ending study_tries_run(const study_basis *basis, const study_work *plan, study_try *tries, size_t count)
{
    batch b = {.basis = basis, .tries = tries, .caches = plan->caches};
    return study_run(plan, count, run_one, &b);
}
