/* SPDX-License-Identifier: MIT */
#include "study/why/tries.h"

#include <math.h>
#include <stdio.h>

/* Where no solution is found with the usual steps, others may find one. */
static const double fineness[] = {1, 1.4, 0.7};

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

/* One run; false: another fineness may do better. */
static bool attempt(const fv_plant *plant, study_try *try, double fine, fv_heat_kit *kit, const fv_progress *progress,
                    fv_faults *faults)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.kit = kit;
    options.until = try->until;
    options.fineness = fine;
    options.stop_at_core = true;
    fv_heat_result *result = fv_heat_run(plant, &options, progress, faults);
    const bool good = result != NULL;
    if (result && !result->stopped)
        study_try_read(result, try);
    fv_heat_free(result);
    return good;
}

typedef struct {
    const study_basis *basis;
    study_try *tries;
    study_kits *kits;
} batch;

static fv_status run_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const batch *b = context;
    study_try *try = &b->tries[index];
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? changed_plant(b->basis, try, faults) : NULL;
    bool good = false, memory = !plant && fv_faults_blame_system(faults);
    for (size_t i = 0; plant && !good && !memory && i < sizeof fineness / sizeof *fineness; i++) {
        fv_faults *own = fv_faults_new();
        good = own && attempt(plant, try, fineness[i], study_kit(b->kits, worker), progress, own);
        memory = !good && fv_faults_blame_system(own);
        keep_reason(own, try);
        fv_faults_free(own);
    }
    if (!plant)
        keep_reason(faults, try);
    try->failed = !good;
    fv_plant_free(plant);
    fv_faults_free(faults);
    return memory ? FV_FAIL : FV_OK;
}

study_ending study_tries_run(const study_basis *basis, const study_work *plan, study_try *tries, size_t count)
{
    batch b = {.basis = basis, .tries = tries, .kits = plan->kits};
    return study_run(plan, count, run_one, &b);
}
