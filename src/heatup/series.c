/* SPDX-License-Identifier: MIT */
/* Samples at regular times. They are gathered row by row and put into matrices, one quantity each, at the end. */
#include "heatup/run.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double BULGE = 2; /* K */

enum { PER_VESSEL = 6, PER_BOILER = 3, PER_ROW = 2 };

void heatup_series_open(heatup_run *run)
{
    run->row_width = PER_ROW + PER_VESSEL * run->plant->vessel_count + PER_BOILER * run->plant->boiler_count;
    run->next_sample = 0;
}

double heatup_vessel_takes(const heatup_run *run, size_t vessel)
{
    const heatup_vessel_run *v = &run->vessels[vessel];
    const heatup_chamber *r = &v->chamber;
    if (v->state != STEAM_OPEN || !heatup_followed(v))
        return 0;
    const double takes = r->load_a + r->all_a + (r->load_b + r->all_b) * run->t_boil;
    return fmax(0, takes + r->shell * fmax(0, run->t_boil - v->t_before)) / v->step.dt;
}

/* kg/s that all chambers could condense at the boiling point. What a load takes falls off as steps pass; between the
 * middles of two steps it runs evenly in its logarithm. */
static double demand(const heatup_run *run, double part, double dt)
{
    fv_sat_point at;
    fv_sat_at(run->sat, run->site_pressure, &at);
    double sum = 0;
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        const heatup_vessel_run *v = &run->vessels[i];
        const double now = heatup_vessel_takes(run, i), before = v->takes_before;
        const double since = 2 * (part - 0.5 * dt) / (dt + v->dt_before);
        sum += now > 0 && before > now ? now * pow(now / before, since) : now;
    }
    return sum / (at.h_g - at.h_f);
}

void heatup_note_end(heatup_vessel_run *v)
{
    v->core_end = heatup_chamber_core(&v->chamber);
    v->surface_end = heatup_chamber_surface(&v->chamber);
    v->slope_end = heatup_chamber_core_slope(&v->chamber, v->trial.t);
}

/* A slope at an end of a step over which the core goes `mean` per second: no more than three times that lets a cubic
 * turn round on its way. What is more counts for BULGE at most, as where a core warms up and cools down in one step; a
 * piece that has just thawed forgets its last unevenness within seconds and has steep slopes for nothing. */
static double tame(double slope, double mean, double dt)
{
    const double most = 3 * fabs(mean) + BULGE / dt;
    return fmax(-most, fmin(most, slope));
}

/* The cubic through the core's ends and slopes; where these are not at hand, the parabola through the starts of this
 * step and the last, and the end of this one. */
double heatup_core_within(const heatup_vessel_run *v, double part, double dt)
{
    const double mean = (v->core_end - v->core) / dt, share = part / dt;
    if (!isnan(v->slope) && !isnan(v->slope_end)) {
        const double start = tame(v->slope, mean, dt) - mean, end = tame(v->slope_end, mean, dt) - mean;
        return v->core + part * (mean + (1 - share) * ((1 - share) * start - share * end));
    }
    const double before = v->dt_before > 0 ? (v->core - v->core_before) / v->dt_before : mean;
    return v->core + mean * part + (mean - before) / (dt + v->dt_before) * part * (part - dt);
}

/* Chamber a part into the step: its means lie at the middles of the steps, and it runs straight through two of them,
 * but not on past boiling. Where it nears the boiling point, what lacks to it goes exponentially. */
static double chamber_within(const heatup_run *run, const heatup_vessel_run *v, double part, double dt)
{
    const double change = v->trial.t - v->t_before, beyond = (part - 0.5 * dt) / (0.5 * (dt + v->dt_before));
    const double lacked = run->t_boil - v->t_before, lacks = run->t_boil - v->trial.t, most = fabs(change);
    if (v->step.steam > 0 && lacks > 0 && lacked > lacks)
        return run->t_boil - lacks * pow(lacks / lacked, beyond);
    const double t = v->trial.t + fmax(-most, fmin(most, change * beyond));
    return fmin(t, fmax(v->trial.t, run->t_boil));
}

static void fill_row(const heatup_run *run, double *row, double part, double dt)
{
    const size_t n = run->plant->vessel_count, b = run->plant->boiler_count;
    double *vessels = row + PER_ROW, *boilers = vessels + PER_VESSEL * n;
    row[0] = run->t + part;
    row[1] = demand(run, part, dt);
    for (size_t i = 0; i < n; i++) {
        const heatup_vessel_run *v = &run->vessels[i];
        const bool moves = heatup_followed(v);
        const double after = v->core_end, share = part / dt;
        vessels[i] = !moves                    ? after
                     : v->chamber.body         ? heatup_core_within(v, part, dt)
                     : part < v->trial.through ? v->core /* the front is not there yet */
                                               : after;
        vessels[n + i] = moves ? chamber_within(run, v, part, dt) : v->chamber.t;
        vessels[2 * n + i] = v->surface + share * (v->surface_end - v->surface);
        vessels[3 * n + i] = moves ? v->step.steam : 0;
        vessels[4 * n + i] =
            heatup_chamber_air_share(&v->chamber, vessels[n + i], v->chamber.pressure, run->site_pressure);
        vessels[5 * n + i] = moves ? v->trial.pressure : 0;
    }
    for (size_t i = 0; i < b; i++) {
        const fv_boiler_result *r = &run->state->boilers[i];
        boilers[i] = r->steam;
        boilers[b + i] = r->pressure;
        boilers[2 * b + i] = heatup_boiler_fuel(run, i);
    }
}

bool heatup_series_add(heatup_run *run, double dt)
{
    const double every = run->options->every;
    while (every > 0 && run->next_sample <= run->t + dt) {
        void *rows = run->rows;
        if (!fv_grow(&rows, &run->row_capacity, (run->row_count + 1) * run->row_width, sizeof(double))) {
            fv_error(run->faults, FV_ERR_SYSTEM, run->plant->loc, "out of memory");
            return false;
        }
        run->rows = rows;
        fill_row(run, run->rows + run->row_count * run->row_width, fmax(0, run->next_sample - run->t), dt);
        run->row_count++;
        run->next_sample += every;
    }
    return true;
}

/* One quantity of all samples: columns first.. of each row, `width` of them. */
static double *matrix(const heatup_run *run, size_t first, size_t width)
{
    double *m = calloc(run->row_count * width + 1, sizeof *m);
    for (size_t i = 0; m && i < run->row_count; i++)
        memcpy(m + i * width, run->rows + i * run->row_width + first, width * sizeof *m);
    return m;
}

bool heatup_series_close(heatup_run *run)
{
    fv_series *s = &run->result->series;
    const size_t n = run->plant->vessel_count, b = run->plant->boiler_count, boilers = PER_ROW + PER_VESSEL * n;
    double **vessel[] = {&s->core, &s->chamber, &s->surface, &s->vessel_steam, &s->air_share, &s->vessel_pressure};
    double **boiler[] = {&s->boiler_steam, &s->boiler_pressure, &s->boiler_fuel};
    bool good = true;
    s->count = run->row_count;
    good = (s->time = matrix(run, 0, 1)) && (s->demand = matrix(run, 1, 1));
    for (size_t k = 0; k < PER_VESSEL; k++)
        good = (*vessel[k] = matrix(run, PER_ROW + k * n, n)) && good;
    for (size_t k = 0; k < PER_BOILER; k++)
        good = (*boiler[k] = matrix(run, boilers + k * b, b)) && good;
    if (!good)
        fv_error(run->faults, FV_ERR_SYSTEM, run->plant->loc, "out of memory");
    return good;
}

fv_steady_result *heatup_state_copy(const heatup_run *run)
{
    fv_steady_result *copy = fv_steady_result_new(run->net);
    if (!copy)
        return NULL;
    fv_steady_result kept = *copy;
    const fv_steady_result *from = run->state;
    *copy = *from;
    copy->boilers = memcpy(kept.boilers, from->boilers, from->boiler_count * sizeof *from->boilers);
    copy->nodes = memcpy(kept.nodes, from->nodes, from->node_count * sizeof *from->nodes);
    copy->lines = memcpy(kept.lines, from->lines, from->line_count * sizeof *from->lines);
    copy->vessels = memcpy(kept.vessels, from->vessels, from->vessel_count * sizeof *from->vessels);
    copy->holes = memcpy(kept.holes, from->holes, from->hole_count * sizeof *from->holes);
    return copy;
}
