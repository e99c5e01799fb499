/* SPDX-License-Identifier: MIT */
/* From a log to draws, and what they say of the vessels. */
#include "num/quantile.h"
#include "study/match.h"

#include <math.h>
#include <stdlib.h>

static const double WORTH_TELLING = 0.03; /* probability */
static const double LATEST = 2;           /* times what the most probable plant takes for its last hold */

static void band(const double *values, const double *weights, size_t n, double *scratch, fv_band *out)
{
    out->low = num_quantile(values, weights, n, 0.1, scratch);
    out->middle = num_quantile(values, weights, n, 0.5, scratch);
    out->high = num_quantile(values, weights, n, 0.9, scratch);
    /* of a median of n effective draws: about 1.25 deviations / sqrt(n), a deviation being the band / 2.56 */
    const double error =
        isfinite(out->high) ? (out->high - out->low) / 2.56 / sqrt(num_effective_size(weights, n)) : NAN;
    out->middle_error = 1.25 * error;
    out->low_error = out->high_error = 1.7 * error;
}

void study_match_bands(const study_match *match, const match_draws *draws, fv_fit_vessel *vessels, double last[3],
                       double *work)
{
    const size_t n = draws->count;
    double *weights = work, *values = work + n, *scratch = work + 2 * n;
    for (size_t i = 0; i < n; i++)
        weights[i] = draws->list[i].weight;
    for (size_t v = 0; v < match->plant->vessel_count; v++) {
        fv_fit_vessel *to = &vessels[v];
        *to = (fv_fit_vessel){0};
        for (size_t i = 0; i < n; i++)
            values[i] = draws->list[i].core[v];
        band(values, weights, n, scratch, &to->core);
        for (size_t i = 0; i < n; i++)
            if (draws->list[i].core[v] <= match->plant->vessels[v]->start.v + match->plant->vessels[v]->within.v)
                to->within += weights[i];
        for (size_t i = 0; i < n; i++)
            values[i] = draws->list[i].hold[v];
        band(values, weights, n, scratch, &to->hold);
        for (size_t i = 0; i < n; i++)
            to->chance += isfinite(values[i]) ? weights[i] : 0;
    }
    for (size_t i = 0; i < n; i++) {
        values[i] = 0;
        for (size_t v = 0; v < match->plant->vessel_count; v++)
            values[i] = fmax(values[i], draws->list[i].hold[v]);
    }
    last[0] = num_quantile(values, weights, n, 0.1, scratch);
    last[1] = num_quantile(values, weights, n, 0.5, scratch);
    last[2] = num_quantile(values, weights, n, 0.9, scratch);
}

/* By when the most probable plant has done all its holds; none may be much later. */
static double find_until(study_match *m, const match_mode *mode)
{
    fv_plant *plant;
    double last = m->now, within = 0;
    fv_heat_result *r = study_match_run(m, &mode->defect, mode->x, 7 * 86400.0, true, NULL, m->progress, NULL, &plant);
    for (size_t v = 0; r && v < r->vessel_count; v++) {
        const fv_vessel_history *h = &r->vessels[v];
        last = fmax(last, isnan(h->hold) ? 0 : h->hold);
        within = fmax(within, m->plant->vessels[v]->within.v + m->plant->vessels[v]->hold.v);
    }
    fv_heat_free(r);
    fv_plant_free(plant);
    return fmax(LATEST * last, m->now + within);
}

static fv_status went_on(const study_match *m, study_ending outcome)
{
    if (!study_match_had_memory(m))
        return FV_FAIL;
    if (outcome == STUDY_FAILED && fv_faults_errors(m->faults) == 0)
        fv_error(m->faults, FV_ERR_SYSTEM, m->plant->loc, "out of memory");
    return outcome == STUDY_DONE ? FV_OK : FV_FAIL;
}

static fv_status find(match_found *found, const fv_fit_options *options)
{
    study_match *m = &found->match;
    if (!study_match_is_read_rightly(m) ||
        went_on(m, study_match_modes(m, options->defects, found->modes, &found->mode_count)) == FV_FAIL ||
        !study_match_is_ours(m, &found->modes[0]))
        return FV_FAIL;
    found->until = find_until(m, &found->modes[0]);
    m->horizon = fmax(m->now, found->until / LATEST);
    return went_on(m, study_match_draw(m, found->modes, found->mode_count, found->probability, options->draws,
                                       options->seed, found->until, &found->draws));
}

match_found *study_match_find(const fv_plant *plant, const fv_logfile *log, const fv_fit_options *options,
                              fv_arena *arena, const fv_progress *progress, fv_faults *faults)
{
    match_found *found = calloc(1, sizeof *found);
    if (!found)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (found && study_match_open(&found->match, plant, log, options, arena, progress, faults) == FV_OK &&
        find(found, options) == FV_OK)
        return found;
    study_match_found_free(found);
    return NULL;
}

void study_match_found_free(match_found *found)
{
    if (found)
        study_match_close(&found->match);
    free(found);
}

size_t study_match_told(const match_found *found, fv_fit_mode *told)
{
    size_t count = 0;
    for (size_t k = 0; k < found->mode_count; k++) {
        const match_mode *m = &found->modes[k];
        const fv_fit_mode mode = {m->defect.kind, m->defect.vessel, m->defect.line, found->probability[k],
                                  m->defect.kind == FV_DEFECT_NONE ? 0
                                                                   : study_defect_size(&m->defect, m->x[m->dim - 1])};
        if (mode.probability < WORTH_TELLING && found->mode_count > 1)
            continue;
        size_t at = count++;
        for (; at > 0 && mode.probability > told[at - 1].probability; at--)
            told[at] = told[at - 1];
        told[at] = mode;
    }
    return count;
}
