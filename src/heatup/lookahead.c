/* SPDX-License-Identifier: MIT */
/* Where chambers tend to if nothing is switched any more: one step, longer than any load or wall remembers, from the
 * state that is now. What is then still stored is nothing beside what flows, so that steam, losses and what the
 * openings pass balance.
 *
 * Not predicted where something is still to come (an action, the end of a hold, other weather, a boiler that runs dry),
 * and while a bed's front climbs or a load is frozen, with steam or without: it would take ice through all those years
 * in steps of seconds. */
#include "heatup/lookahead.h"
#include "heatup/actions.h"
#include "heatup/arrival.h"
#include "heatup/boilerhouse.h"
#include "heatup/moment.h"
#include "heatup/thermostat.h"

#include <math.h>
#include <stdlib.h>

static const double FOR_GOOD = 1e10;    /* s */
static const double FIRST_LOOK = 14400; /* s after the last switching */
static const double SOONER = 1e-6;      /* K: what counts as below a target */

/* The run once more, with a state and scratch of its own; what it writes down is dropped. */
static bool make_lookahead(const heatup_run *run, heatup_run *ahead)
{
    const heatup_context *c = &run->context;
    *ahead = (heatup_run){.context = *c, .faults = fv_faults_new(), .result = calloc(1, sizeof *ahead->result)};
    const bool state = heatup_state_copy(&run->state, &c->sizes, c->net, &ahead->state);
    const bool scratch = heatup_scratch_init(&ahead->scratch, &c->sizes, c->net);
    if (!state || !scratch || !ahead->faults || !ahead->result)
        return false;
    ahead->state.network_fresh = false;
    /* it has been: not to be kept anew */
    ahead->result->at_first_steam = ahead->state.network;
    return true;
}

static void drop_lookahead(heatup_run *ahead)
{
    heatup_state_free(&ahead->state);
    heatup_scratch_free(&ahead->scratch);
    fv_faults_free(ahead->faults);
    free(ahead->result);
}

static bool on_steam(const heatup_vessel *v)
{
    return v->state == STEAM_OPEN && !v->inactive;
}

static bool changes_to_come(const heatup_run *run)
{
    const fv_plant *plant = run->context.plant;
    if (run->state.switched || isfinite(heatup_actions_next(run)) || isfinite(heatup_boilers_next_refill(run)) ||
        heatup_boilers_warming(run) || !heatup_boilers_steaming(run))
        return true;
    for (size_t i = 0; i < plant->boiler_count; i++)
        if (run->state.boilers[i].up && !run->state.boilers[i].dry && isfinite(run->state.boilers[i].stock))
            return true;
    if (plant->site.weather_count > 0 && plant->site.weather[plant->site.weather_count - 1]->at.v > run->state.t)
        return true;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        const bool melts = v->chamber.body && !heatup_body_is_linear(v->chamber.body);
        const bool climbs = heatup_chamber_bed_wants(&v->chamber, run->context.site_pressure) > 0;
        /* Pores fill, and then the walls take less: the look-ahead's one step takes them as they are. */
        if (on_steam(v) && heatup_chamber_of_walls(&v->chamber, heatup_wall_heat_lets_vapour) > 0)
            return true;
        if (melts && v->state != STEAM_WAITING && !v->inactive)
            return true;
        if (v->state == STEAM_SHUT && !v->inactive && heatup_actions_listen(run, FV_EVENT_COOL, (int)i))
            return true;
        if (on_steam(v) && (v->to_lines > 0 || (v->step.steam > 0 && climbs) ||
                            (!v->counted_full && heatup_actions_listen(run, FV_EVENT_FULL, (int)i))))
            return true;
    }
    return false;
}

/* What is predicted would not last: then nothing is. */
static bool a_thermostat_switches(heatup_run *run)
{
    bool any = false;
    for (size_t k = 0; k < run->context.sizes.thermostats; k++) {
        const heatup_vessel *v = &run->state.vessels[run->context.plant->thermostats[k]->vessel_index];
        const double cold = 0; /* K: what is off the steam cools */
        any = any || heatup_thermostat_would_switch(run, k, isnan(v->tends) ? cold : v->tends);
    }
    for (size_t i = 0; any && i < run->context.plant->vessel_count; i++)
        run->state.vessels[i].tends = NAN;
    return any;
}

bool heatup_look_ahead(heatup_run *run)
{
    heatup_run ahead;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        run->state.vessels[i].tends = NAN;
    if (changes_to_come(run))
        return false;
    bool good = make_lookahead(run, &ahead) && heatup_moment(&ahead, FOR_GOOD) == FV_OK;
    for (size_t i = 0; good && i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i], *g = &ahead.state.vessels[i];
        if (!on_steam(v))
            continue;
        v->tends = v->chamber.t;
        if (heatup_followed(g)) {
            g->chamber.t = v->tends = g->trial.t_end;
            g->chamber.pressure = g->trial.pressure;
        }
        v->tends_for = heatup_why_not(&ahead, i);
    }
    drop_lookahead(&ahead);
    return good && !a_thermostat_switches(run);
}

bool heatup_tends_below(const heatup_run *run, size_t i)
{
    const heatup_vessel *v = &run->state.vessels[i];
    const double target = run->context.plant->vessels[i]->target.v - SOONER;
    return !v->reached && v->tends < target && v->chamber.t < target;
}

bool heatup_time_to_look(heatup_run *run)
{
    if (run->state.switched)
        run->state.looked = run->state.t;
    const bool time = run->state.t > run->state.looked + FIRST_LOOK + 0.25 * run->state.looked;
    if (time)
        run->state.looked = run->state.t;
    return time;
}
