/* SPDX-License-Identifier: MIT */
/* Where chambers tend to if nothing is switched any more: one step, longer than any load or wall remembers, from the
 * state that is now. What is then still stored is nothing beside what flows, so that steam, losses and what the
 * openings pass balance.
 *
 * Not foreseen where something is still to come (an action, the end of a hold, other weather, a boiler that runs dry),
 * and while a bed's front climbs or a load melts. */
#include "heatup/run.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double FOR_GOOD = 1e10;    /* s */
static const double FIRST_LOOK = 14400; /* s after the last switching */
static const double SOONER = 1e-6;      /* K: what counts as below a target */

/* The run once more, with arrays of its own for all that a step writes. */
static bool make_ghost(const heatup_run *run, heatup_run *ghost)
{
    const size_t vessels = run->plant->vessel_count, boilers = run->plant->boiler_count;
    *ghost = *run;
    ghost->faults = fv_faults_new();
    ghost->result = calloc(1, sizeof *ghost->result);
    ghost->solver = fv_solver_new(run->net);
    ghost->state = fv_steady_result_new(run->net);
    ghost->vessels = calloc(vessels + 1, sizeof *ghost->vessels);
    ghost->boilers = calloc(boilers + 1, sizeof *ghost->boilers);
    ghost->chambers = calloc(vessels + 1, sizeof *ghost->chambers);
    ghost->solved_chambers = calloc(vessels + 1, sizeof *ghost->solved_chambers);
    ghost->stored = calloc(boilers + 1, sizeof *ghost->stored);
    ghost->solved_stored = calloc(boilers + 1, sizeof *ghost->solved_stored);
    double **const numbers[] = {&ghost->fire,     &ghost->solved_fire, &ghost->more,
                                &ghost->foretold, &ghost->missed,      &ghost->missing};
    bool good = ghost->faults && ghost->result && ghost->solver && ghost->state && ghost->vessels && ghost->boilers &&
                ghost->chambers && ghost->solved_chambers && ghost->stored && ghost->solved_stored;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        good = (*numbers[i] = calloc(vessels + boilers + 1, sizeof(double))) && good;
    if (!good)
        return false;
    memcpy(ghost->vessels, run->vessels, vessels * sizeof *ghost->vessels);
    memcpy(ghost->boilers, run->boilers, boilers * sizeof *ghost->boilers);
    memcpy(ghost->chambers, run->chambers, vessels * sizeof *ghost->chambers);
    ghost->state_fresh = false;
    /* it has been: not to be kept anew */
    ghost->result->at_first_steam = ghost->state;
    return true;
}

static void drop_ghost(heatup_run *ghost)
{
    fv_steady_result_free(ghost->state);
    fv_solver_free(ghost->solver);
    fv_faults_free(ghost->faults);
    void *const all[] = {ghost->result,          ghost->vessels, ghost->boilers,       ghost->chambers,
                         ghost->solved_chambers, ghost->stored,  ghost->solved_stored, ghost->fire,
                         ghost->solved_fire,     ghost->more,    ghost->foretold,      ghost->missed,
                         ghost->missing};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        free(all[i]);
}

static bool on_steam(const heatup_vessel_run *v)
{
    return v->state == STEAM_OPEN && !v->asleep;
}

static bool changes_to_come(const heatup_run *run)
{
    const fv_plant *plant = run->plant;
    if (run->switched || isfinite(heatup_actions_next(run)) || heatup_boilers_warming(run) ||
        !heatup_boilers_steaming(run))
        return true;
    for (size_t i = 0; i < plant->boiler_count; i++)
        if (run->boilers[i].up && !run->boilers[i].dry && isfinite(run->boilers[i].stock))
            return true;
    if (plant->site.weather_count > 0 && plant->site.weather[plant->site.weather_count - 1]->at.v > run->t)
        return true;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const heatup_vessel_run *v = &run->vessels[i];
        const bool melts = v->chamber.body && !heatup_body_is_linear(v->chamber.body);
        const bool climbs = heatup_chamber_bed_wants(&v->chamber, run->site_pressure) > 0;
        if (v->state == STEAM_SHUT && !v->asleep && heatup_actions_listen(run, FV_EVENT_COOL, (int)i))
            return true;
        if (on_steam(v) && (v->to_lines > 0 || (v->step.steam > 0 && (melts || climbs)) ||
                            (!v->counted_full && heatup_actions_listen(run, FV_EVENT_FULL, (int)i))))
            return true;
    }
    return false;
}

bool heatup_foresee(heatup_run *run)
{
    heatup_run ghost;
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        run->vessels[i].tends = NAN;
    if (changes_to_come(run))
        return false;
    bool good = make_ghost(run, &ghost) && heatup_moment(&ghost, FOR_GOOD) == FV_OK;
    for (size_t i = 0; good && i < run->plant->vessel_count; i++) {
        heatup_vessel_run *v = &run->vessels[i], *g = &ghost.vessels[i];
        if (!on_steam(v))
            continue;
        v->tends = v->chamber.t;
        if (heatup_followed(g)) {
            g->chamber.t = v->tends = g->trial.t_end;
            g->chamber.pressure = g->trial.pressure;
        }
        v->tends_for = heatup_why_not(&ghost, i);
    }
    drop_ghost(&ghost);
    return good;
}

bool heatup_tends_below(const heatup_run *run, size_t i)
{
    const heatup_vessel_run *v = &run->vessels[i];
    const double target = run->plant->vessels[i]->target.v - SOONER;
    return !v->reached && v->tends < target && v->chamber.t < target;
}

bool heatup_time_to_look(heatup_run *run)
{
    if (run->switched)
        run->looked = run->t;
    const bool time = run->t > run->looked + FIRST_LOOK + 0.25 * run->looked;
    if (time)
        run->looked = run->t;
    return time;
}
