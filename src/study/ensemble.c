/* SPDX-License-Identifier: MIT */
#include "study/ensemble.h"

fv_heat_result *study_run_somehow(const fv_plant *plant, const fv_heat_options *options, const fv_progress *progress,
                                  fv_faults *faults)
{
    static const double fineness[] = {1, 1.4, 0.7};
    fv_heat_options o = *options;
    fv_heat_result *result = NULL;
    for (size_t i = 0; i < sizeof fineness / sizeof *fineness && !result; i++) {
        fv_faults *own = fv_faults_new();
        o.fineness = options->fineness * fineness[i];
        result = own ? fv_heat_run(plant, &o, progress, own) : NULL;
        const bool memory = !result && fv_faults_blame_system(own);
        if (memory)
            fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        for (size_t k = 0; i == 0 && !memory && !result && k < fv_faults_count(own); k++) {
            const fv_fault *f = fv_faults_at(own, k);
            if (!f->caution)
                fv_error(faults, f->blame, (fv_loc){f->file, f->line}, "%s", f->text);
        }
        fv_faults_free(own);
        if (memory)
            return NULL;
    }
    return result;
}

typedef struct {
    const study_ensemble *of;
    study_caches *caches;
} crew;

static fv_status run_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const crew *c = context;
    const study_ensemble *e = c->of;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant =
        faults ? study_unknowns_plant(e->unknowns, e->plant, e->z + index * e->unknowns->count, faults) : NULL;
    fv_heat_options options = e->options;
    options.cache = study_cache(c->caches, worker);
    fv_heat_result *result = plant ? study_run_somehow(plant, &options, progress, faults) : NULL;
    const bool memory = !faults || (!result && fv_faults_errors(faults) > 0 && fv_faults_blame_system(faults));
    if (!result || !result->stopped)
        e->take(e->context, index, result);
    fv_heat_free(result);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return memory ? FV_FAIL : FV_OK;
}

study_ending study_ensemble_run(const study_ensemble *ensemble, const study_work *plan)
{
    crew c = {.of = ensemble, .caches = plan->caches};
    return study_run(plan, ensemble->count, run_one, &c);
}
