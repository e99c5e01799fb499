/* SPDX-License-Identifier: MIT */
/* From parameters to what the probes would read. */
#include "study/match.h"

#include "num/distribution.h"

#include <math.h>
#include <stdlib.h>

static const double HUBER = 2.5; /* whitened units: beyond, a departure counts in proportion */
static const double CLOGGED_MOST = 0.6, NARROW_MOST = 0.35; /* shares */
static const double SAG_MOST = 0.08;                        /* m. All three: evenly up to there. Common practice */

size_t study_match_dim(const study_match *match, const study_defect *defect)
{
    return match->unknowns.count + match->series_count + 1 + (defect->kind != FV_DEFECT_NONE);
}

double study_defect_size(const study_defect *defect, double z)
{
    const double most[] = {0, CLOGGED_MOST, NARROW_MOST, SAG_MOST};
    return most[defect->kind] * num_normal_share(z);
}

static void put(fv_value *value, double si)
{
    value->v = si;
    value->origin = FV_SETTING;
}

static void add_defect(fv_plant *plant, const study_defect *defect, double size)
{
    if (defect->kind == FV_DEFECT_CLOGGED) {
        fv_value *clogged = &plant->vessels[defect->vessel]->coil.clogged;
        put(clogged, 1 - (1 - clogged->v) * (1 - size));
    } else if (defect->kind == FV_DEFECT_NARROW) {
        put(&plant->lines[defect->line]->bore, plant->lines[defect->line]->bore.v * (1 - size));
    } else if (defect->kind == FV_DEFECT_SAG) {
        put(&plant->lines[defect->line]->sag, fmax(plant->lines[defect->line]->sag.v, size));
    }
}

fv_plant *study_match_plant(const study_match *match, const study_defect *defect, const double *x, fv_faults *faults)
{
    fv_plant *plant = study_unknowns_plant(&match->unknowns, match->plant, x, faults);
    if (!plant || defect->kind == FV_DEFECT_NONE)
        return plant;
    add_defect(plant, defect, study_defect_size(defect, x[study_match_dim(match, defect) - 1]));
    if (fv_plant_link(plant, faults) == FV_OK)
        return plant;
    fv_plant_free(plant);
    return NULL;
}

/* First-order lag of what runs straight from sample to sample: exact. */
static void lag(double *value, size_t count, double step, double lag)
{
    if (!(lag > 0) || count == 0)
        return;
    const double fade = exp(-step / lag), ramp = 1 - (1 - fade) * lag / step;
    double y = value[0], before = value[0];
    for (size_t i = 1; i < count; i++) {
        const double now = value[i];
        y = fade * y + (1 - fade) * before + ramp * (now - before);
        before = now;
        value[i] = y;
    }
}

/* Water that a boiler gave, with what its steam carries, by the trapezoidal rule. */
static void sum_water(const fv_heat_result *r, size_t boiler, double *value)
{
    const fv_series *s = &r->series;
    const double *rate = s->boiler_steam + boiler;
    value[0] = 0;
    for (size_t i = 1; i < s->count; i++)
        value[i] = value[i - 1] + 0.5 * (s->time[i] - s->time[i - 1]) *
                                      (rate[(i - 1) * r->boiler_count] + rate[i * r->boiler_count]) /
                                      r->plant->boilers[boiler]->dryness.v;
}

static bool fill_curves(const study_match *m, const fv_heat_result *r, match_curves *c)
{
    const fv_series *s = &r->series;
    c->count = s->count;
    c->step = m->every;
    c->value = malloc((m->readings.count * s->count + 1) * sizeof *c->value);
    if (!c->value)
        return false;
    for (size_t p = 0; p < m->readings.count; p++) {
        const fv_probe_readings *probe = &m->readings.list[p];
        double *value = c->value + p * s->count;
        if (probe->reads == FV_READS_WATER) {
            sum_water(r, (size_t)probe->boiler, value);
            continue;
        }
        for (size_t i = 0; i < s->count; i++)
            value[i] = probe->reads == FV_READS_PRESSURE
                           ? s->boiler_pressure[i * r->boiler_count + (size_t)probe->boiler]
                       : probe->vessel < 0             ? r->plant->site.air.v
                       : probe->at == FV_PROBE_DEPTH   ? s->depth[i * r->plant->probe_count + p]
                       : probe->at == FV_PROBE_CHAMBER ? s->chamber[i * r->vessel_count + (size_t)probe->vessel]
                                                       : s->core[i * r->vessel_count + (size_t)probe->vessel];
        lag(value, s->count, c->step, probe->lag);
    }
    return true;
}

void study_match_curves_free(match_curves *curves)
{
    free(curves->value);
    *curves = (match_curves){0};
}

/* A single run asks whether the user wants to stop, and leaves the share where the fit has it. */
static bool stand_still(void *context, double share, const char *what)
{
    const study_match *m = context;
    (void)share;
    (void)what;
    return !m->progress->tick || m->progress->tick(m->progress->context, m->shown, "fitting the plant to the log");
}

fv_heat_result *study_match_run(const study_match *match, const study_defect *defect, const double *x, double until,
                                bool to_the_end, fv_heat_cache *cache, const fv_progress *progress,
                                match_curves *curves, fv_plant **plant)
{
    study_match asking = *match;
    const fv_progress still = {stand_still, &asking};
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.until = until;
    options.stop_at_hold = to_the_end;
    options.every = match->every;
    options.cache = cache;
    *plant = study_match_plant(match, defect, x, NULL);
    fv_faults *own = fv_faults_new();
    fv_heat_result *result =
        *plant && own
            ? study_run_somehow(*plant, &options, progress && progress == match->progress ? &still : progress, own)
            : NULL;
    bool memory = !result && fv_faults_blame_system(own);
    fv_faults_free(own);
    if (result && !result->stopped && curves)
        memory = !fill_curves(match, result, curves);
    if (memory)
        atomic_store(match->no_memory, true);
    if (result && result->stopped)
        atomic_store(match->halted, true);
    if (result && (result->stopped || memory)) {
        fv_heat_free(result);
        result = NULL;
    }
    if (!result) {
        fv_plant_free(*plant);
        *plant = NULL;
    }
    return result;
}

double study_match_moment(const study_match *match, size_t i)
{
    return match->horizon * (double)i / (FV_FIT_MOMENTS - 1);
}

double study_match_at(const match_curves *curves, size_t probe, double time)
{
    const double *value = curves->value + probe * curves->count;
    const double place = time / curves->step;
    if (curves->count == 0 || place <= 0)
        return curves->count ? value[0] : NAN;
    const size_t i = (size_t)place;
    if (i + 1 >= curves->count)
        return value[curves->count - 1];
    return value[i] + (place - (double)i) * (value[i + 1] - value[i]);
}

void study_match_departures(const study_match *match, const match_curves *curves, const double *x, double *f)
{
    const double shift = x[match->unknowns.count + match->series_count] * match->lit_error;
    for (size_t k = 0; k < match->series_count; k++) {
        const match_series *s = &match->series[k];
        const double offset = x[match->unknowns.count + k] * match->readings.list[s->probe].error;
        for (size_t i = 0; i < s->count; i++)
            f[s->first + i] = s->value[i] - offset - study_match_at(curves, s->probe, s->time[i] - shift);
    }
}

double study_huber(double v)
{
    const double size = fabs(v);
    return size <= HUBER ? v : copysign(sqrt(2 * HUBER * size - HUBER * HUBER), v);
}

void study_match_residuals(const study_match *match, const match_curves *curves, const double *x, double *f)
{
    study_match_departures(match, curves, x, f);
    for (size_t k = 0; k < match->series_count; k++) {
        const match_series *s = &match->series[k];
        num_whiten(&s->white, f + s->first, s->count, f + s->first);
        for (size_t i = 0; i < s->count; i++)
            f[s->first + i] = study_huber(f[s->first + i]);
    }
}

double study_match_evidence(const study_match *match, const match_mode *mode)
{
    double sum = mode->supposed - 0.5 * mode->sum;
    for (size_t k = 0; k < match->series_count; k++)
        sum -= 0.5 * match->series[k].log_norm;
    for (size_t i = 0; i < mode->dim; i++)
        sum += log(mode->factor[i * mode->dim + i]);
    return sum;
}
