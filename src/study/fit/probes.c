/* SPDX-License-Identifier: MIT */
/* How well the most probable plant follows each probe: departures, signs that the errors are not as assumed, stretches
 * that it cannot follow. */
#include "num/quantile.h"
#include "study/fit/parts.h"

#include <math.h>
#include <stdlib.h>

static const double FAR = 3.0;        /* slow errors: beyond, a departure is one that the model cannot follow */
static const double STRETCH = 5 * 60; /* s at least */
enum { STRETCHES_MOST = 64 };

/* Score of the number of runs of equal sign (Wald & Wolfowitz, Ann. Math. Stat. 11 (1940) 147). */
static double runs_score(const double *white, size_t n)
{
    double above = 0, below = 0, runs = n > 0;
    for (size_t i = 0; i < n; i++) {
        above += white[i] > 0;
        below += white[i] <= 0;
        runs += i > 0 && (white[i] > 0) != (white[i - 1] > 0);
    }
    const double all = above + below, product = 2 * above * below;
    if (product <= all || all < 3)
        return NAN;
    const double mean = product / all + 1, variance = product * (product - all) / (all * all * (all - 1));
    return (runs - mean) / sqrt(variance);
}

static double autocorrelation(const double *white, size_t n)
{
    double sum = 0, together = 0;
    for (size_t i = 0; i < n; i++) {
        sum += white[i] * white[i];
        together += i > 0 ? white[i] * white[i - 1] : 0;
    }
    return sum > 0 ? together / sum : NAN;
}

static void add_stretch(fv_fit_answer *a, size_t probe, double from, double to, double sum, size_t count)
{
    if (count > 0 && to - from >= STRETCH && a->stretch_count < STRETCHES_MOST)
        a->stretches[a->stretch_count++] = (fv_fit_stretch){probe, from, to, sum / (double)count};
}

/* Rows of the log, also those not used for the fit, against the model. */
static void find_stretches(fv_fit_answer *a, size_t probe, double offset, double far)
{
    const fv_probe_readings *r = &a->cleaned[probe].readings;
    const double *model = a->probes[probe].model;
    double from = NAN, to = 0, sum = 0;
    size_t count = 0;
    for (size_t i = 0; i <= r->count; i++) {
        const bool known = i < r->count && !isnan(r->value[i]) && !isnan(model[i]);
        const double departs = known ? r->value[i] - offset - model[i] : 0;
        if (known && fabs(departs) > far) {
            from = count == 0 ? r->time[i] : from;
            to = r->time[i];
            sum += departs;
            count++;
        } else if (i == r->count || known) {
            add_stretch(a, probe, from, to, sum, count);
            count = 0;
            sum = 0;
        }
    }
}

static void fill_model(fv_fit_answer *a, const study_match *m, const match_curves *curves, size_t probe, double shift)
{
    const fv_logfile *log = a->log;
    for (size_t i = 0; i < log->count; i++) {
        const double t = log->time[i] - m->lit - shift;
        a->probes[probe].model[i] =
            t < -600 || log->time[i] > m->lit + m->now + 1 ? NAN : study_match_at(curves, probe, t);
    }
}

/* The prior of an offset x is a reading of it with deviation 1; left out, by the deletion formulas of linear least
 * squares (Belsley, Kuh & Welsch, Regression Diagnostics, 1980, section 2.1), the others say x / (1 - C) within
 * sqrt(C / (1 - C)), and the two differ by x / sqrt(1 - C) deviations. */
static void ask_others(const match_mode *mode, size_t at, const fv_probe_readings *r, fv_fit_probe *p)
{
    const double x = mode->x[at], c = mode->covariance[at * mode->dim + at], left = 1 - c;
    const bool none = !(left > 1e-3); /* they tell nothing of it */
    p->others = none ? NAN : x / left * r->error + r->offset;
    p->others_error = none ? NAN : sqrt(c / left) * r->error;
    p->departs = none ? NAN : x / sqrt(left);
}

static bool fill_series(fv_fit_answer *a, const match_found *found, const match_curves *curves, size_t k, double *white)
{
    const study_match *m = &found->match;
    const match_series *s = &m->series[k];
    const double *x = found->modes[0].x;
    fv_fit_probe *p = &a->probes[s->probe];
    const double error = m->readings.list[s->probe].error;
    const size_t at = m->unknowns.count + k;
    double mean = 0, variance = 0, squares = 0;
    for (size_t i = 0; i < found->draws.count; i++)
        mean += found->draws.list[i].weight * found->draws.list[i].x[at];
    for (size_t i = 0; i < found->draws.count; i++)
        variance += found->draws.list[i].weight * pow(found->draws.list[i].x[at] - mean, 2);
    study_match_departures(m, curves, x, white);
    double *mine = white + s->first;
    for (size_t i = 0; i < s->count; i++)
        squares += mine[i] * mine[i];
    num_whiten(&s->white, mine, s->count, mine);
    p->used = s->count;
    p->rms = sqrt(squares / (double)s->count);
    p->offset = mean * error + m->readings.list[s->probe].offset;
    p->offset_error = sqrt(variance) * error;
    ask_others(&found->modes[0], at, &m->readings.list[s->probe], p);
    p->noise = s->noise_deviation;
    p->autocorrelation = autocorrelation(mine, s->count);
    p->runs = runs_score(mine, s->count);
    const bool chamber = m->readings.list[s->probe].at == FV_PROBE_CHAMBER;
    if (m->readings.list[s->probe].reads == FV_READS_TEMPERATURE)
        find_stretches(a, s->probe, mean * error, FAR * fmax(m->slow[chamber], 2 * s->noise_deviation));
    return true;
}

bool fit_fill_bands(fv_fit_answer *answer, const match_found *found, double *work)
{
    const match_draws *draws = &found->draws;
    const size_t n = draws->count;
    double *weights = work, *values = work + n, *scratch = work + 2 * n;
    for (size_t i = 0; i < n; i++)
        weights[i] = draws->list[i].weight;
    for (size_t i = 0; i < FV_FIT_MOMENTS; i++)
        answer->moment[i] = found->match.lit + study_match_moment(&found->match, i);
    for (size_t p = 0; p < answer->probe_count; p++) {
        fv_fit_probe *to = &answer->probes[p];
        double **const bands[] = {&to->low, &to->middle, &to->high};
        for (size_t k = 0; k < 3; k++)
            if (!(*bands[k] = fv_arena_alloc(answer->arena, FV_FIT_MOMENTS, sizeof(double))))
                return false;
        for (size_t i = 0; i < FV_FIT_MOMENTS; i++) {
            for (size_t d = 0; d < n; d++)
                values[d] = draws->list[d].curve[p * FV_FIT_MOMENTS + i];
            to->low[i] = num_quantile(values, weights, n, 0.1, scratch);
            to->middle[i] = num_quantile(values, weights, n, 0.5, scratch);
            to->high[i] = num_quantile(values, weights, n, 0.9, scratch);
        }
    }
    return true;
}

bool fit_fill_probes(fv_fit_answer *answer, const match_found *found)
{
    /* The run is of the finished match, so its caches may be used by this thread. */
    union {
        const study_match *given;
        study_match *match;
    } writable = {.given = &found->match};
    const study_match *m = &found->match;
    const match_mode *mode = &found->modes[0];
    const double shift = mode->x[m->unknowns.count + m->series_count] * m->lit_error;
    match_curves curves = {0};
    fv_plant *plant;
    double *white = malloc((m->residuals + 1) * sizeof *white);
    fv_heat_result *r =
        study_match_run(writable.match, &mode->defect, mode->x, m->now + 900, false, NULL, NULL, &curves, &plant);
    for (size_t p = 0; p < m->readings.count; p++)
        ++*(m->readings.list[p].reads == FV_READS_TEMPERATURE ? &answer->probe_count : &answer->instrument_count);
    answer->probes = fv_arena_alloc(answer->arena, m->readings.count + 1, sizeof *answer->probes);
    answer->cleaned = fv_arena_alloc(answer->arena, m->readings.count + 1, sizeof *answer->cleaned);
    answer->stretches = fv_arena_alloc(answer->arena, STRETCHES_MOST, sizeof *answer->stretches);
    bool good = white && r && answer->probes && answer->cleaned && answer->stretches;
    for (size_t p = 0; p < m->readings.count && good; p++) {
        answer->cleaned[p].readings = m->readings.list[p];
        answer->probes[p] = (fv_fit_probe){.rms = NAN, .offset = NAN, .offset_error = NAN, .noise = NAN};
        answer->probes[p].autocorrelation = answer->probes[p].runs = NAN;
        answer->probes[p].model = fv_arena_alloc(answer->arena, answer->log->count + 1, sizeof(double));
        good = answer->probes[p].model != NULL;
        if (good)
            fill_model(answer, m, &curves, p, shift);
    }
    for (size_t k = 0; k < m->series_count && good; k++)
        good = fill_series(answer, found, &curves, k, white);
    study_match_curves_free(&curves);
    fv_heat_free(r);
    fv_plant_free(plant);
    free(white);
    return good;
}

bool fit_add_defect(fv_fit_answer *answer, const match_found *found)
{
    const match_mode *mode = &found->modes[0];
    if (mode->defect.kind == FV_DEFECT_NONE)
        return true;
    fv_plant *plant = study_match_plant(&found->match, &mode->defect, mode->x, NULL);
    if (!plant)
        return false;
    const fv_vessel *v = answer->plant->vessels[mode->defect.vessel];
    fv_setting *to = &answer->best.settings[answer->best.count++];
    if (mode->defect.kind == FV_DEFECT_CLOGGED)
        *to = (fv_setting){fv_arena_printf(answer->arena, "%s.coil", v->part.id), "clogged",
                           plant->vessels[mode->defect.vessel]->coil.clogged.v};
    else if (mode->defect.kind == FV_DEFECT_NARROW)
        *to = (fv_setting){answer->plant->lines[mode->defect.line]->part.id, "bore",
                           plant->lines[mode->defect.line]->bore.v};
    else
        *to = (fv_setting){answer->plant->lines[mode->defect.line]->part.id, "sag",
                           plant->lines[mode->defect.line]->sag.v};
    fv_plant_free(plant);
    return to->path != NULL;
}
