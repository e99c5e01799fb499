/* SPDX-License-Identifier: MIT */
/* From a log to the readings that are used: which, when, how noisy. */
#include "heatup/load.h"
#include "study/match.h"

#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdlib.h>

static const double THIN_TO = 240;                        /* readings of a probe, about */
static const double LIT_SAID = 60, LIT_SUPPOSED = 180;    /* s, error of the time of lighting. Common practice */
static const double NOISE_LEAST = 0.05, NOISE_MOST = 1.5; /* K */
static const double SLOW_USUAL[2] = {0.85, 0.85};         /* K: at cores, in chambers */
static const double SLOW_TIME = 1800;                     /* s */
enum { READINGS_LEAST = 5 };

/* Noise is looked for in kelvins, and in as many parts of a gauge's error. */
static double unit_of(const fv_probe_readings *r)
{
    return r->reads == FV_READS_TEMPERATURE ? 1 : r->error;
}

static double slow_of(const study_match *m, const fv_probe_readings *r)
{
    return r->reads == FV_READS_PRESSURE ? r->error
           : r->reads == FV_READS_WATER  ? 0
                                         : m->slow[r->at == FV_PROBE_CHAMBER];
}

/* Robust deviation of the noise: second differences have sqrt(6) times it; 1.4826 of the median's absolute deviation is
 * the deviation of a normal one. What the slow error has in them, slow^2 (6 - 8 a + 2 a^2), a being what is left of it
 * after an interval, is taken off: whitening has it already. */
static double noise_of(const study_match *m, const fv_probe_readings *r, double *scratch)
{
    size_t n = 0;
    double apart = 0;
    for (size_t i = 2; i < r->count; i++)
        if (r->flaw[i] == FV_READING_GOOD && r->flaw[i - 1] == FV_READING_GOOD && r->flaw[i - 2] == FV_READING_GOOD) {
            scratch[n++] = fabs(r->value[i] - 2 * r->value[i - 1] + r->value[i - 2]) / sqrt(6);
            apart += 0.5 * (r->time[i] - r->time[i - 2]);
        }
    if (n < READINGS_LEAST)
        return (r->reads == FV_READS_WATER ? 1 : 0.3) * unit_of(r);
    const double a = exp(-apart / (double)n / m->slow_time), slow = slow_of(m, r);
    const double variance =
        pow(1.4826 * gsl_stats_median(scratch, 1, n), 2) - slow * slow * (6 - 8 * a + 2 * a * a) / 6;
    return fmax(NOISE_LEAST * unit_of(r), fmin(NOISE_MOST * unit_of(r), sqrt(fmax(0, variance))));
}

/* When a reading was taken, and when the model gets there, are known to a sample of its curves: where readings rise
 * steeply that is an error of them, slope times the time's (effective variance: Orear, Am. J. Phys. 50 (1982) 912). A
 * bend beyond their noise is a leap between two of them, as when the first steam comes, and as steep as the probe's lag
 * lets it be: such a reading tells little but that the leap was then. */
static void add_time_error(const study_match *m, match_series *s)
{
    const double lag = fmax(m->readings.list[s->probe].lag, m->every), usual = 3 * sqrt(6) * s->noise_deviation;
    for (size_t i = 1; i + 1 < s->count; i++) {
        const double before = s->value[i - 1], now = s->value[i], after = s->value[i + 1];
        const double slope = fabs(after - before) / (s->time[i + 1] - s->time[i - 1]);
        const double leap = fmax(0, fabs(after - 2 * now + before) - usual) / lag;
        s->noise[i] += pow((slope + leap) * m->every, 2) / 12;
    }
}

/* The step in which a probe's readings come: their resolution. */
static double resolution_of(const fv_probe_readings *r)
{
    double least = INFINITY;
    for (size_t i = 1; i < r->count; i++) {
        const double step = fabs(r->value[i] - r->value[i - 1]);
        if (step > 1e-6)
            least = fmin(least, step);
    }
    return isfinite(least) ? fmin(least, 2 * unit_of(r)) : r->reads == FV_READS_WATER ? 0 : 0.1 * unit_of(r);
}

static bool use_probe(study_match *m, size_t probe, double *scratch)
{
    const fv_probe_readings *r = &m->readings.list[probe];
    match_series *s = &m->series[m->series_count];
    size_t good = 0;
    for (size_t i = 0; i < r->count; i++)
        good += r->flaw[i] == FV_READING_GOOD && r->time[i] - m->lit <= m->now;
    if (good < READINGS_LEAST && r->reads != FV_READS_WATER)
        return true;
    const double span = m->now + 600, apart = span / THIN_TO;
    double **arrays[] = {&s->time, &s->value, &s->noise, &s->white.fade, &s->white.gain, &s->white.scale};
    for (size_t k = 0; k < sizeof arrays / sizeof *arrays; k++)
        if (!(*arrays[k] = fv_arena_alloc(m->arena, good + 1, sizeof(double))))
            return false;
    s->probe = probe;
    s->first = m->residuals;
    s->noise_deviation = noise_of(m, r, scratch);
    const double resolution = resolution_of(r), variance = pow(s->noise_deviation, 2) + pow(resolution, 2) / 12;
    for (size_t i = 0; i < r->count; i++) {
        const double t = r->time[i] - m->lit;
        if (r->flaw[i] != FV_READING_GOOD || t > m->now || (s->count && t < s->time[s->count - 1] + apart))
            continue;
        s->time[s->count] = t;
        s->value[s->count] = r->value[i];
        s->noise[s->count++] = variance;
    }
    add_time_error(m, s);
    s->read = s->count;
    m->residuals += s->count;
    m->series_count++;
    return true;
}

static bool use_readings(study_match *m)
{
    double *scratch = malloc((m->log->count + 1) * sizeof *scratch);
    m->series = fv_arena_alloc(m->arena, m->readings.count + 1, sizeof *m->series);
    bool good = scratch && m->series;
    for (size_t i = 0; i < m->readings.count && good; i++)
        good = use_probe(m, i, scratch);
    free(scratch);
    if (!good)
        fv_error(m->faults, FV_ERR_SYSTEM, m->plant->loc, "out of memory");
    else if (m->residuals == 0)
        fv_error(m->faults, FV_ERR_INPUT, (fv_loc){m->log->file, 0},
                 "no probe has as many as %d good readings up to then; `farvessel odds` says what is known before",
                 READINGS_LEAST);
    return good && m->residuals > 0;
}

void study_match_use_readings(study_match *match, const double *until)
{
    match->residuals = 0;
    for (size_t k = 0; k < match->series_count; k++) {
        match_series *s = &match->series[k];
        const int vessel = match->readings.list[s->probe].vessel;
        const double last = until && vessel >= 0 ? until[vessel] : NAN;
        s->count = s->read;
        while (!isnan(last) && s->count > 1 && s->time[s->count - 1] > last)
            s->count--;
        s->first = match->residuals;
        match->residuals += s->count;
    }
}

void study_match_whiten(study_match *match)
{
    for (size_t i = 0; i < match->series_count; i++) {
        match_series *s = &match->series[i];
        const fv_probe_readings *r = &match->readings.list[s->probe];
        const num_slow_error slow = {slow_of(match, r), match->slow_time};
        s->log_norm = num_whiten_prepare(&slow, s->time, s->noise, s->count, &s->white);
    }
}

void study_match_usual_errors(study_match *match)
{
    match->slow[0] = SLOW_USUAL[0];
    match->slow[1] = SLOW_USUAL[1];
    study_match_whiten(match);
}

/* When the fire was lit, and up to when readings count. */
static fv_status set_times(study_match *m, const fv_fit_options *o)
{
    const fv_logfile *log = m->log;
    m->lit = log->time[0];
    m->lit_error = o->lit ? LIT_SAID : LIT_SUPPOSED;
    if (o->lit && fv_logfile_when(log, o->lit, log->time[0], "--lit", &m->lit, m->faults) == FV_FAIL)
        return FV_FAIL;
    double now = log->time[log->count - 1];
    if (o->now && fv_logfile_when(log, o->now, 0.5 * (log->time[0] + now), "--now", &now, m->faults) == FV_FAIL)
        return FV_FAIL;
    m->whole = !(now < log->time[log->count - 1]);
    m->now = fmin(now, log->time[log->count - 1]) - m->lit;
    if (m->now > 0)
        return FV_OK;
    char lit[32], end[32];
    return fv_error(m->faults, FV_ERR_INPUT, (fv_loc){log->file, 0},
                    "the fire was lit at %s, after the last reading that counts (%s)",
                    fv_logfile_stamp(log, m->lit, lit, sizeof lit), fv_logfile_stamp(log, now, end, sizeof end));
}

static fv_status add_logged_actions(study_match *m, const fv_fit_options *o)
{
    if (o->did_count == 0)
        return FV_OK;
    m->with_actions = fv_plant_copy(m->plant);
    if (!m->with_actions)
        return fv_error(m->faults, FV_ERR_SYSTEM, m->plant->loc, "out of memory");
    for (size_t i = 0; i < o->did_count; i++)
        if (study_logged_action_add(m->with_actions, m->log, m->lit, m->lit + 0.5 * m->now, o->did[i], "--did",
                                    m->faults) == FV_FAIL)
            return FV_FAIL;
    m->plant = m->with_actions;
    return fv_plant_link(m->with_actions, m->faults);
}

/* Where a probe stands at a depth there must be pieces, and so thick ones. */
static fv_status check_depths(const study_match *m)
{
    const size_t before = fv_faults_errors(m->faults);
    for (size_t i = 0; i < m->plant->probe_count; i++) {
        const fv_probe *p = m->plant->probes[i];
        heatup_load_spec spec;
        if (!fv_is_set(p->depth))
            continue;
        const fv_vessel *v = m->plant->vessels[p->vessel_index];
        if (heatup_load_spec_of(&v->load, v->part.id, m->plant->site.air.v, v->target.v, &spec, m->faults) == FV_FAIL)
            continue;
        const double half = spec.mass > 0 && !spec.bed ? heatup_body_half(&spec.piece) : NAN;
        if (isnan(half))
            fv_error(m->faults, FV_ERR_INPUT, p->part.loc,
                     "probe '%s': the load of vessel '%s' has no pieces, so no depth in them; a bed has at=\"core\"",
                     p->part.id, v->part.id);
        else if (p->depth.v > half)
            fv_error(m->faults, FV_ERR_INPUT, p->part.loc,
                     "probe '%s': depth %.4g mm is beyond the middle of what heats as one piece in vessel '%s', which "
                     "lies %.4g mm deep",
                     p->part.id, 1e3 * p->depth.v, v->part.id, 1e3 * half);
    }
    return fv_faults_errors(m->faults) > before ? FV_FAIL : FV_OK;
}

/* The plant as the file has it, for values that correlations supply. */
static fv_status find_unknowns(study_match *m)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    options.every = 0;
    fv_heat_result *now = study_run_somehow(m->plant, &options, m->progress, m->faults);
    if (!now)
        return FV_FAIL;
    const fv_status status = study_unknowns_find(m->plant, now->at_first_steam, m->arena, &m->unknowns);
    fv_heat_free(now);
    if (status == FV_FAIL)
        fv_error(m->faults, FV_ERR_SYSTEM, m->plant->loc, "out of memory");
    return status;
}

fv_status study_match_open(study_match *match, const fv_plant *plant, const fv_logfile *log,
                           const fv_fit_options *options, fv_arena *arena, const fv_progress *progress,
                           fv_faults *faults)
{
    *match = (study_match){.plant = plant,
                           .log = log,
                           .progress = progress,
                           .faults = faults,
                           .arena = arena,
                           .threads = options->threads,
                           .slow = {SLOW_USUAL[0], SLOW_USUAL[1]},
                           .slow_time = SLOW_TIME};
    match->no_memory = fv_arena_alloc(arena, 1, sizeof *match->no_memory);
    match->halted = fv_arena_alloc(arena, 1, sizeof *match->halted);
    if (!match->no_memory || !match->halted)
        return fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    atomic_init(match->no_memory, false);
    atomic_init(match->halted, false);
    const double boiling = fv_sat_t(fv_sat_line(), fv_site_pressure(&plant->site), NULL);
    if (check_depths(match) == FV_FAIL || set_times(match, options) == FV_FAIL ||
        add_logged_actions(match, options) == FV_FAIL ||
        study_readings_find(match->plant, log, boiling, arena, &match->readings, faults) == FV_FAIL ||
        study_readings_instruments(match->plant, log, match->whole && !options->goes_on ? match->lit + match->now : NAN,
                                   arena, &match->readings, faults) == FV_FAIL ||
        find_unknowns(match) == FV_FAIL)
        return FV_FAIL;
    match->every = fmax(10, fmin(30, match->now / 60)); /* a chamber that fills has a steep, bent curve */
    if (!use_readings(match))
        return FV_FAIL;
    study_match_usual_errors(match);
    return FV_OK;
}

bool study_match_had_memory(const study_match *match)
{
    if (match->no_memory && atomic_load(match->no_memory))
        fv_error(match->faults, FV_ERR_SYSTEM, match->plant->loc, "out of memory");
    return match->no_memory && !atomic_load(match->no_memory);
}

study_ending study_match_refuse(study_match *match)
{
    if (atomic_load(match->halted))
        return STUDY_STOPPED;
    if (study_match_had_memory(match) && fv_faults_errors(match->faults) == 0)
        fv_error(match->faults, FV_ERR_NUMERICS, match->plant->loc,
                 "no plant near this one could be fitted to the log");
    return STUDY_FAILED;
}

void study_match_close(study_match *match)
{
    study_caches_free(&match->caches);
    fv_plant_free(match->with_actions);
}
