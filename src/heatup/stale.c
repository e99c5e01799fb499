/* SPDX-License-Identifier: MIT */
/* Whether the network must be solved again. It is what a run spends most of its time on, and what it says changes
 * slowly: most steps go on with the last solution.
 *
 * What counts is by how much the load is late in the end. A vessel that gets a share e too little steam over a step dt
 * is late by e dt; this is added up since the last solution, and the network asked again before it comes to some ten
 * thousandth of the time that the load takes at the least. How the steam follows the back pressures is predicted to
 * first order (fv_solver_sensitivity): mostly it hangs on lines that lose far more pressure than the holes, and hardly
 * follows. What a boiler's own water takes or gives counts in the same way, as a share of its output. */
#include "heatup/stale.h"

#include <math.h>
#include <string.h>

/* All at fineness 1. */
static const double LATE_MOST = 1e-4;                         /* of the least time that any load takes */
static const double LATE_LONGEST = 2.0, LATE_SHORTEST = 0.02; /* s, whatever the loads */
static const double MISSED_MOST = 0.01;                       /* of a vessel's steam at once */
static const double HELD_LEAST = 5e-4;                        /* of a feed's drop: less back pressure is no question */
static const double PREDICTED_MOST = 0.3; /* of a feed's drop: farther, a straight line does not hold */
static const double STEAM_LEAST = 1e-3;   /* of all steam: a vessel that gets less is measured by that */
static const double LOSSES_MATTER = 5e-4; /* of all steam's heat: by how much lines may lose more or less */
static const double AIR_MOST = 2.0;       /* K of the air outside, whatever lines lose */
static const double WIND_LEAST = 0.3;     /* m/s, about as much as natural convection does */
static const double DROP_LEAST = 1.0;     /* Pa */
static const double WATER_WEIGHT = 9400;  /* N/m3, near boiling */

void heatup_stale_open(heatup_run *run)
{
    double least = INFINITY;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const double ample = run->result->vessels[i].core_ample;
        if (ample > 0)
            least = fmin(least, ample);
    }
    run->context.may_miss = fmax(LATE_SHORTEST, fmin(LATE_LONGEST, LATE_MOST * least)) / run->context.options->fineness;
}

void heatup_stale_solved(heatup_run *run, double air, double wind)
{
    const size_t vessels = run->context.plant->vessel_count, boilers = run->context.plant->boiler_count;
    memcpy(run->state.solved_fire, run->state.fire, boilers * sizeof(double));
    memcpy(run->state.solved_stored, run->state.stored, boilers * sizeof *run->state.stored);
    memcpy(run->state.solved_back, run->state.back, vessels * sizeof *run->state.back);
    memset(run->state.missed, 0, (vessels + boilers) * sizeof(double));
    memset(run->scratch.missing, 0, (vessels + boilers) * sizeof(double));
    run->state.solved_air = air;
    run->state.solved_wind = wind;
    run->state.network_fresh = true;
}

void heatup_stale_taken(heatup_run *run)
{
    memcpy(run->state.missed, run->scratch.missing,
           (run->context.plant->vessel_count + run->context.plant->boiler_count) * sizeof(double));
}

double heatup_hole_drop(const heatup_run *run, size_t vessel)
{
    return fmax(fabs(run->state.network->vessels[vessel].hole_drop), DROP_LEAST);
}

static double feed_drop(const heatup_run *run, size_t vessel)
{
    return fmax(heatup_hole_drop(run, vessel), run->state.network->vessels[vessel].feed_drop);
}

/* Whether missing a share over dt would be too much in all, which is noted. */
static bool misses(heatup_run *run, size_t which, double share, double dt)
{
    run->scratch.missing[which] = run->state.missed[which] + share * dt;
    return fabs(run->scratch.missing[which]) > run->context.may_miss;
}

static bool boilers_stale(heatup_run *run, double dt)
{
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        /* what the pressure's change would take now, against what it took when the network was solved */
        const double t =
            fv_sat_t(run->context.sat, run->context.site_pressure + run->state.network->boilers[i].pressure, NULL);
        const fv_stored *now = &run->state.stored[i], *then = &run->state.solved_stored[i];
        const double taken = now->rate * (t - now->t) - then->rate * (t - then->t);
        const double gives = run->context.plant->boilers[i]->output.v * run->state.fire[i];
        if (run->state.fire[i] != run->state.solved_fire[i] ||
            (run->state.network->boilers[i].state == FV_BOILER_FULL &&
             misses(run, run->context.plant->vessel_count + i, taken / gives, dt)))
            return true;
    }
    return false;
}

/* Other back pressures than at the last solution. */
static bool chambers_stale(heatup_run *run, double dt)
{
    double most = 0, all = 0;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const fv_chamber *now = &run->state.back[i], *then = &run->state.solved_back[i];
        if (now->kind != then->kind)
            return true;
        run->scratch.more[i] = now->pressure - then->pressure + WATER_WEIGHT * (now->water - then->water);
        most = fmax(most, fabs(run->scratch.more[i]) / feed_drop(run, i));
        all += fmax(0, run->state.network->vessels[i].steam);
    }
    if (most <= HELD_LEAST / run->context.options->fineness)
        return false;
    if (most > PREDICTED_MOST || !fv_solver_sensitivity(run->scratch.solver, run->scratch.more, run->scratch.predicted))
        return true;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const double share = run->scratch.predicted[i] / fmax(run->state.network->vessels[i].steam, STEAM_LEAST * all);
        if (misses(run, i, share, dt) || fabs(share) > MISSED_MOST / run->context.options->fineness)
            return true;
    }
    return false;
}

/* Lines lose more or less in other weather: in proportion to how far the air is from the steam, at most in proportion
 * to the wind. */
static bool weather_stale(const heatup_run *run, double air, double wind)
{
    const double matters = 1 / run->context.options->fineness, warmer = fabs(air - run->state.solved_air);
    const double windier = fabs(wind - run->state.solved_wind) / fmax(WIND_LEAST, fmin(wind, run->state.solved_wind));
    if (warmer == 0 && windier == 0)
        return false;
    double lost = 0;
    for (size_t i = 0; i < run->state.network->line_count; i++)
        lost += run->state.network->lines[i].heat_loss;
    const double change = (warmer / (run->context.t_boil - run->state.solved_air) + windier) * lost;
    return warmer > AIR_MOST * matters || change > LOSSES_MATTER * matters * run->state.network->audit.heat_total;
}

bool heatup_network_stale(heatup_run *run, double dt, double air, double wind)
{
    memcpy(run->scratch.missing, run->state.missed,
           (run->context.plant->vessel_count + run->context.plant->boiler_count) * sizeof(double));
    return !run->state.network_fresh || weather_stale(run, air, wind) || boilers_stale(run, dt) ||
           chambers_stale(run, dt);
}
