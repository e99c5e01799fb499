/* SPDX-License-Identifier: MIT */
#include "study/log/spans.h"

#include "farvessel/constants.h"

#include <math.h>

static const double GAP = 15 * 60; /* s without a good reading that are bridged; longer ones break a hold */

double log_lethality(double t0, double t1, double dt, double reference, double z)
{
    const double a = pow(10, (t0 - reference) / z), b = pow(10, (t1 - reference) / z);
    const double x = log(10) * (t1 - t0) / z;
    return fabs(x) < 1e-9 ? dt * 0.5 * (a + b) : dt * (b - a) / x;
}

/* A stretch between two good readings, straight. */
typedef struct {
    double from, dt, t0, t1;
    bool bridged; /* not so long that nothing can be said */
} stretch;

/* The stretch that ends at the next good reading from *i on; *i is then that reading. */
static bool next_stretch(const fv_probe_readings *r, size_t *i, double shift, stretch *s)
{
    size_t a = *i, b;
    while (a < r->count && r->flaw[a] != FV_READING_GOOD)
        a++;
    for (b = a + 1; b < r->count && r->flaw[b] != FV_READING_GOOD; b++)
        ;
    if (b >= r->count)
        return false;
    *s = (stretch){
        .from = r->time[a], .dt = r->time[b] - r->time[a], .t0 = r->value[a] + shift, .t1 = r->value[b] + shift};
    s->bridged = s->dt <= GAP;
    *i = b;
    return true;
}

/* The part of a stretch at or above a temperature: it begins and ends there, s. */
static bool part_above(const stretch *s, double level, double *begin, double *end)
{
    *begin = s->from;
    *end = s->from + s->dt;
    if (s->t0 < level && s->t1 < level)
        return false;
    if (s->t0 < level)
        *begin = s->from + s->dt * (level - s->t0) / (s->t1 - s->t0);
    else if (s->t1 < level)
        *end = s->from + s->dt * (level - s->t0) / (s->t1 - s->t0);
    return true;
}

/* Longest and summed time at or above a level. */
static void time_above(const fv_probe_readings *r, double level, double shift, fv_log_span *span)
{
    stretch s;
    double run_from = NAN, run_to = NAN, lowest = INFINITY;
    for (size_t i = 0; next_stretch(r, &i, shift, &s);) {
        double begin, end;
        if (!part_above(&s, level, &begin, &end) || !s.bridged) {
            run_from = NAN;
            continue;
        }
        if (isnan(span->first))
            span->first = begin;
        if (isnan(run_from) || begin > run_to + 1e-6) {
            run_from = begin;
            lowest = INFINITY;
        }
        run_to = end;
        lowest = fmin(lowest, fmax(level, fmin(s.t0, s.t1)));
        span->sum += end - begin;
        if (run_to - run_from > span->longest) {
            span->longest = run_to - run_from;
            span->from = run_from;
            span->lowest = lowest;
        }
        if (end < s.from + s.dt)
            run_from = NAN;
    }
}

fv_log_span log_span(const fv_log_probe *probe, double shift)
{
    const fv_probe_readings *r = &probe->readings;
    fv_log_span span = {.first = NAN, .from = NAN, .lowest = NAN, .highest = -INFINITY};
    stretch s;
    time_above(r, probe->target, shift, &span);
    for (size_t i = 0; next_stretch(r, &i, shift, &s);) {
        if (s.bridged)
            span.lethality += log_lethality(s.t0, s.t1, s.dt, probe->reference, probe->z);
        span.highest = fmax(span.highest, fmax(s.t0, s.t1));
    }
    return span;
}

bool log_goes_on(const fv_log_probe *probe)
{
    const fv_probe_readings *r = &probe->readings;
    for (size_t i = r->count; i-- > 0;)
        if (r->flaw[i] == FV_READING_GOOD)
            return r->value[i] >= probe->target;
    return false;
}

/* ---- rules ---- */

/* 40 CFR 503.32(a)(3), alternative 1: days = 131 700 000 / 10^(0.14 t), at least 20 min, from 50 degC on. Time is added
 * up as shares of what each temperature asks. */
static double days_503(double t)
{
    const double celsius = t - FV_CELSIUS;
    return celsius < 50 ? INFINITY : fmax(20.0 / 1440, 131700000.0 / pow(10, 0.14 * celsius));
}

double log_rule_share(const fv_probe_readings *readings, const fv_log_rule *rule, double shift)
{
    fv_log_span span = {.first = NAN, .from = NAN, .lowest = NAN};
    if (!isnan(rule->time)) {
        time_above(readings, rule->temperature, shift, &span);
        return (rule->unbroken ? span.longest : span.sum) / rule->time;
    }
    double share = 0;
    stretch s;
    enum { PARTS = 8 }; /* the equation is steep: a step of minutes is taken in parts */
    for (size_t i = 0; next_stretch(readings, &i, shift, &s);)
        for (int k = 0; k < PARTS && s.bridged; k++)
            share += s.dt / PARTS / 86400 / days_503(s.t0 + (s.t1 - s.t0) * (k + 0.5) / PARTS);
    return share;
}
