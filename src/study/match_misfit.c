/* SPDX-License-Identifier: MIT */
/* A log that is another plant's, or read in the wrong way.
 *
 * How well the plant can explain a log at all is the least sum of squares over all its parameters, in the linear
 * approximation at the prior's middle (num_ridge_least). The same is asked of the log with two columns exchanged, an
 * hour earlier or later, and in the other unit: what is then explained so much better is said, and nothing fitted. */
#include "farvessel/constants.h"
#include "num/posterior.h"
#include "study/match.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double TOO_BAD = 2.0;  /* sum of squares for each reading: beyond, the log is looked at twice */
static const double BETTER = 0.5;   /* so much of it must be left with the other reading of the log */
static const double HOPELESS = 3.0; /* Huber's loss for each reading after the fit, or */
static const double OFF = 6.0;      /* K rms at cores */
static const double STRAINED = 3.0; /* deviations, as is customary: one right log in 700 */

typedef struct {
    study_match *match;
    match_curves curves;
    double *j, *f, *x;
    size_t dim;
} misfit;

static double value_at(const match_series *s, double t)
{
    size_t i = 1;
    while (i + 1 < s->count && s->time[i] < t)
        i++;
    if (s->count < 2)
        return s->value[0];
    const double part = fmax(0, fmin(1, (t - s->time[i - 1]) / (s->time[i] - s->time[i - 1])));
    return s->value[i - 1] + part * (s->value[i] - s->value[i - 1]);
}

/* One way to read the log: pair of series exchanged, shift, unit. */
typedef struct {
    size_t a, b;  /* equal: none */
    double shift; /* s, of readings */
    double after; /* s since the lighting: only of those later than that */
    int unit;     /* 1: degF read as degC, -1: the reverse, 0 */
} reading_as;

static bool is_temperature(const study_match *m, size_t series)
{
    return m->readings.list[m->series[series].probe].reads == FV_READS_TEMPERATURE;
}

static double explained(const misfit *s, const reading_as *as)
{
    const study_match *m = s->match;
    for (size_t k = 0; k < m->series_count; k++) {
        const match_series *mine = &m->series[k];
        const match_series *theirs = &m->series[as->a != as->b && k == as->a   ? as->b
                                                : as->a != as->b && k == as->b ? as->a
                                                                               : k];
        double *f = s->f + mine->first;
        for (size_t i = 0; i < mine->count; i++) {
            double v = value_at(theirs, mine->time[i]);
            if (as->unit != 0 && is_temperature(m, k))
                v = FV_CELSIUS + (as->unit > 0 ? (v - FV_CELSIUS - 32) / 1.8 : 1.8 * (v - FV_CELSIUS) + 32);
            f[i] = v -
                   study_match_at(&s->curves, mine->probe, mine->time[i] + (mine->time[i] > as->after ? as->shift : 0));
        }
        num_whiten(&mine->white, f, mine->count, f);
        for (size_t i = 0; i < mine->count; i++)
            f[i] = copysign(fmin(fabs(f[i]), 12), f[i]);
    }
    return num_ridge_least(s->j, s->f, m->residuals, s->dim) / (double)m->residuals;
}

static const char *column(const study_match *m, size_t series)
{
    return m->log->channels[m->readings.list[m->series[series].probe].channel].name;
}

static bool say(const misfit *s, double now)
{
    const study_match *m = s->match;
    const fv_loc loc = {m->log->file, 0};
    double best = BETTER * now;
    char at[32];
    const size_t before = fv_faults_errors(m->faults);
    reading_as found = {0};
    const fv_log_told *told = &m->log->told;
    const reading_as ways[] = {{.shift = 3600, .after = -INFINITY},
                               {.shift = -3600, .after = -INFINITY},
                               {.unit = 1},
                               {.unit = -1},
                               {.shift = -3600, .after = told->gap_at - m->lit}};
    const bool may_have_gone_forward = told->gap > 3600 && told->moved == 0;
    for (size_t i = 0; i < sizeof ways / sizeof *ways - !may_have_gone_forward; i++) {
        const double left = explained(s, &ways[i]);
        if (left < best) {
            best = left;
            found = ways[i];
        }
    }
    for (size_t a = 0; a < m->series_count; a++)
        for (size_t b = 0; b < a; b++) {
            const reading_as as = {.a = a, .b = b};
            if (!is_temperature(m, a) || !is_temperature(m, b))
                continue;
            const double left = explained(s, &as);
            if (left < best) {
                best = left;
                found = as;
            }
        }
    if (found.a != found.b)
        fv_error(m->faults, FV_ERR_INPUT, loc,
                 "%s and %s fit better the other way round; exchange their columns in the plant file",
                 column(m, found.b), column(m, found.a));
    else if (found.shift != 0 && isfinite(found.after))
        fv_error(
            m->faults, FV_ERR_INPUT, loc,
            "nothing was written for an hour from %s on, and what follows fits better an hour earlier: if the clock "
            "was set forward (summer time), say --clock forward",
            fv_logfile_stamp(m->log, told->gap_at, at, sizeof at));
    else if (found.shift != 0)
        fv_error(m->faults, FV_ERR_INPUT, loc,
                 "the log fits better with all times an hour %s (summer time?); say --lit an hour %s",
                 found.shift > 0 ? "later" : "earlier", found.shift > 0 ? "earlier" : "later");
    else if (found.unit != 0)
        fv_error(m->faults, FV_ERR_INPUT, loc, "the log fits better if its readings are %s; correct the heading%s",
                 found.unit > 0 ? "degF, not degC" : "degC, not degF",
                 found.unit > 0 ? ", or say --unit degF" : ", or say --unit degC");
    return fv_faults_errors(m->faults) > before;
}

/* Readings that no plant has, and that tell a unit. Errors as large as a wrong log makes them would forgive it: it is
 * judged by the usual ones. */
static bool is_hopeless(study_match *m, const match_mode *mode, double *off)
{
    const double slow[2] = {m->slow[0], m->slow[1]};
    match_curves curves = {0};
    fv_plant *plant;
    double *f = malloc((m->residuals + 1) * sizeof *f), cores = 0, count = 0, loss = 0;
    fv_heat_result *r =
        f ? study_match_run(m, &mode->defect, mode->x, m->now + 900, false, NULL, NULL, &curves, &plant) : NULL;
    *off = 0;
    if (r) {
        study_match_departures(m, &curves, mode->x, f);
        for (size_t k = 0; k < m->series_count; k++)
            for (size_t i = 0; i < m->series[k].count && m->readings.list[m->series[k].probe].at == FV_PROBE_CORE &&
                               is_temperature(m, k);
                 i++) {
                cores += pow(f[m->series[k].first + i], 2);
                count++;
            }
        *off = count > 0 ? sqrt(cores / count) : 0;
        study_match_usual_errors(m);
        study_match_residuals(m, &curves, mode->x, f);
        memcpy(m->slow, slow, sizeof slow);
        study_match_whiten(m);
        for (size_t i = 0; i < m->residuals; i++)
            loss += f[i] * f[i] / (double)m->residuals;
        fv_plant_free(plant);
    }
    study_match_curves_free(&curves);
    fv_heat_free(r);
    free(f);
    return r && (loss > HOPELESS || *off > OFF);
}

/* How far the parameters had to leave what was known beforehand: the mode's sum of squares against its prior predictive
 * (Box, J. R. Stat. Soc. A 143 (1980) 383), in which it is a weighted sum of chi squares with the weights of B = I - C;
 * by their first two moments, and as a standard normal by Wilson & Hilferty (PNAS 17 (1931) 684). */
static double strain(const match_mode *mode)
{
    const size_t n = mode->dim;
    double sum = 0, trace = 0, squares = 0;
    for (size_t i = 0; i < n; i++) {
        sum += mode->x[i] * mode->x[i];
        trace += 1 - mode->covariance[i * n + i];
        for (size_t k = 0; k < n; k++)
            squares += pow((i == k) - mode->covariance[i * n + k], 2);
    }
    const double freedom = trace * trace / squares, part = 2 / (9 * freedom);
    return trace > 0 ? (cbrt(sum / trace) - 1 + part) / sqrt(part) : 0;
}

/* What would have to be wrong the most. */
static void say_strained(const study_match *m, const match_mode *mode)
{
    size_t most = 0;
    for (size_t i = 1; i < mode->dim; i++)
        most = fabs(mode->x[i]) > fabs(mode->x[most]) ? i : most;
    fv_error(m->faults, FV_ERR_INPUT, (fv_loc){m->log->file, 0},
             "this log is not of this plant, or of another day: it is followed only if much is other than the file "
             "says, most of all %s, by %.1f times its spread, so nothing was fitted; look whether file, columns and "
             "--lit are the right ones, or widen what is known less well (spread)",
             most < m->unknowns.count                      ? m->unknowns.list[most].name
             : most < m->unknowns.count + m->series_count  ? "a probe's offset"
             : most == m->unknowns.count + m->series_count ? "the time of lighting"
                                                           : "what is wrong with a vessel",
             fabs(mode->x[most]));
}

match_trust study_match_trust(study_match *match, const match_mode *mode, double *off)
{
    double cores;
    const bool hopeless = is_hopeless(match, mode, off ? off : &cores);
    return hopeless ? MATCH_HOPELESS : strain(mode) > STRAINED ? MATCH_STRAINED : MATCH_BELIEVED;
}

bool study_match_is_ours(study_match *match, const match_mode *mode)
{
    double off;
    const match_trust trust = study_match_trust(match, mode, &off);
    if (trust == MATCH_HOPELESS)
        fv_error(
            match->faults, FV_ERR_INPUT, (fv_loc){match->log->file, 0},
            "this log is not of this plant, or of another day: at best the cores are off by %.1f K rms, so nothing "
            "was fitted; look whether file, columns and --lit are the right ones",
            off);
    else if (trust == MATCH_STRAINED)
        say_strained(match, mode);
    return trust == MATCH_BELIEVED;
}

bool study_match_is_read_rightly(study_match *match)
{
    const study_defect none = {FV_DEFECT_NONE, -1, -1};
    misfit s = {.match = match, .dim = study_match_dim(match, &none)};
    fv_plant *plant = NULL;
    s.j = malloc((match->residuals + 1) * s.dim * sizeof *s.j);
    s.f = malloc((match->residuals + 1) * sizeof *s.f);
    s.x = calloc(s.dim + 1, sizeof *s.x);
    fv_heat_result *r = s.j && s.f && s.x ? study_match_run(match, &none, s.x, match->now + 4500, false, NULL,
                                                            match->progress, &s.curves, &plant)
                                          : NULL;
    bool rightly = true;
    if (r) {
        study_match_residuals(match, &s.curves, s.x, s.f);
        if (study_match_jacobian(match, &none, s.x, s.f, &s.curves, s.j, 0, 0.02) == STUDY_DONE) {
            const reading_as plain = {0};
            const double now = explained(&s, &plain);
            rightly = !(now > TOO_BAD && say(&s, now));
        }
    }
    study_match_curves_free(&s.curves);
    fv_heat_free(r);
    fv_plant_free(plant);
    free(s.j);
    free(s.f);
    free(s.x);
    return rightly;
}
