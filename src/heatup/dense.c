/* SPDX-License-Identifier: MIT */
/* Quantities within a step, from what is known of it: ends, slopes and means. */
#include "heatup/dense.h"

#include <math.h>

static const double OVERSHOOT_MOST = 2; /* K */

double heatup_vessel_takes(const heatup_run *run, size_t vessel)
{
    const heatup_vessel *v = &run->state.vessels[vessel];
    const heatup_chamber *r = &v->chamber;
    if (v->state != STEAM_OPEN || !heatup_followed(v))
        return 0;
    const double takes = r->load_a + r->walls_a + (r->load_b + r->walls_b) * run->context.t_boil;
    return fmax(0, takes + r->shell * fmax(0, run->context.t_boil - v->t_before)) / v->step.dt;
}

/* kg/s that all chambers could condense at the boiling point. What a load takes falls off as steps pass; between the
 * middles of two steps it runs evenly in its logarithm. */
double heatup_demand_within(const heatup_run *run, double part, double dt)
{
    fv_sat_point at;
    fv_sat_at(run->context.sat, run->context.site_pressure, &at);
    double sum = 0;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        const double now = heatup_vessel_takes(run, i), before = v->takes_before;
        const double since = 2 * (part - 0.5 * dt) / (dt + v->dt_before);
        sum += now > 0 && before > now ? now * pow(now / before, since) : now;
    }
    return sum / (at.h_g - at.h_f);
}

void heatup_note_end(heatup_vessel *v)
{
    v->core_end = heatup_chamber_core(&v->chamber);
    v->surface_end = heatup_chamber_surface(&v->chamber);
    v->slope_end = heatup_chamber_core_slope(&v->chamber, v->trial.t);
}

/* A slope at an end of a step over which the core goes `mean` per second: no more than three times that lets a cubic
 * turn round on its way. What is more counts for OVERSHOOT_MOST at most, as where a core warms up and cools down in one
 * step; a piece that has just thawed forgets its last unevenness within seconds and has steep slopes for nothing. */
static double limited_slope(double slope, double mean, double dt)
{
    const double most = 3 * fabs(mean) + OVERSHOOT_MOST / dt;
    return fmax(-most, fmin(most, slope));
}

/* The cubic through the core's ends and slopes; where these are not at hand, the parabola through the starts of this
 * step and the last, and the end of this one. */
double heatup_core_within(const heatup_vessel *v, double part, double dt)
{
    const double mean = (v->core_end - v->core) / dt, share = part / dt;
    if (!isnan(v->slope) && !isnan(v->slope_end)) {
        const double start = limited_slope(v->slope, mean, dt) - mean,
                     end = limited_slope(v->slope_end, mean, dt) - mean;
        return v->core + part * (mean + (1 - share) * ((1 - share) * start - share * end));
    }
    const double before = v->dt_before > 0 ? (v->core - v->core_before) / v->dt_before : mean;
    // a short step may come before a long one: the parabola then turns round on its way, unless it bends less
    const double most = fabs(mean) + OVERSHOOT_MOST / dt, bend = (mean - before) * dt / (dt + v->dt_before);
    return v->core + part * (mean - fmax(-most, fmin(most, bend)) * (1 - share));
}

/* Chamber a part into the step: its means lie at the middles of the steps, and it runs straight through two of them,
 * but not on past boiling. Where it nears the boiling point, what lacks to it goes exponentially. */
double heatup_chamber_within(const heatup_run *run, const heatup_vessel *v, double part, double dt)
{
    const double change = v->trial.t - v->t_before, beyond = (part - 0.5 * dt) / (0.5 * (dt + v->dt_before));
    const double lacked = run->context.t_boil - v->t_before, lacks = run->context.t_boil - v->trial.t,
                 most = fabs(change);
    if (v->step.steam > 0 && lacks > 0 && lacked > lacks)
        return run->context.t_boil - lacks * pow(lacks / lacked, beyond);
    const double t = v->trial.t + fmax(-most, fmin(most, change * beyond));
    return fmin(t, fmax(v->trial.t, run->context.t_boil));
}

double heatup_mean_within(const heatup_run *run, const heatup_mean *last, double value, double middle, double part)
{
    const double apart = run->state.t + middle - last->at;
    if (isnan(last->value) || !(apart > 0))
        return value;
    return value + (value - last->value) * fmin(1, (part - middle) / apart);
}

void heatup_forget_means(heatup_run *run)
{
    for (size_t i = 0; i < run->context.sizes.vessels; i++)
        run->state.vessels[i].steam_mean.value = run->state.vessels[i].pressure_mean.value = NAN;
    for (size_t i = 0; i < run->context.sizes.boilers; i++) {
        heatup_boiler *b = &run->state.boilers[i];
        b->steam_mean.value = b->pressure_mean.value = b->fuel_mean.value = NAN;
    }
}
