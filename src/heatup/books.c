/* SPDX-License-Identifier: MIT */
/* The books of heat: all that fuel brought in, and where it went. */
#include "heatup/books.h"
#include "heatup/supply.h"

#include <math.h>

static void warm_lines(heatup_run *run, size_t i, double dt)
{
    heatup_vessel *v = &run->state.vessels[i];
    const double brought = heatup_vessel_steam(run, i) * (heatup_vessel_enthalpy(run, i) - run->context.h_f_boil) * dt;
    if (!(v->line_heat > 0) || !(brought > 0))
        return;
    run->result->split.lines_warmed += v->to_lines * brought;
    v->line_heat = v->to_lines < 1 ? 0 : v->line_heat - brought;
}

static void add_vessel(heatup_run *run, size_t i, double dt)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    fv_heat_split *split = &run->result->split;
    const heatup_chamber_trial *r = &v->trial;
    h->steam += v->step.steam * dt;
    h->water += v->step.water * dt;
    h->condensate += r->condensate;
    h->moisture_gain += v->chamber.soaks * fmax(0, r->condensate);
    /* what leaves is its steam but for what its own water gave up in the step, and never more than it got: the rest is
     * the moisture that its air came with */
    const double out = r->vented * dt, spare = fmax(0, h->steam - h->vented),
                 own = fmax(out - spare, fmin(out, fmax(0, -r->condensate)));
    h->vented += out - own;
    h->evaporated += own;
    h->air += r->drawn * dt;
    if (!v->reached)
        h->air_to_core += r->drawn * dt;
    h->heat_load += r->heat_load;
    h->heat_walls += r->heat_walls;
    h->heat_shell += r->heat_shell;
    h->heat_vented += r->heat_vented;
    split->load += r->heat_load;
    split->walls += r->heat_walls;
    split->shell += r->heat_shell;
    split->vented += r->heat_vented;
    split->air_warmed += r->heat_air;
    split->gas_stored += r->heat_gas;
    if (v->holding && v->state == STEAM_OPEN && v->to_lines == 0)
        h->steam_least_in_hold = fmin(isnan(h->steam_least_in_hold) ? INFINITY : h->steam_least_in_hold, v->step.steam);
}

/* Heat that leaves with water is what the boilers gave and neither lines nor vessels kept. */
static double drained(const heatup_run *run, double dt)
{
    double heat = 0;
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        if (run->state.boilers[i].up && !run->state.boilers[i].dry)
            heat += run->state.network->boilers[i].heat;
    for (size_t i = 0; i < run->context.plant->line_count; i++)
        heat -= run->state.network->lines[i].heat_loss;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        const double steam = heatup_vessel_steam(run, i);
        const double h_f = v->to_lines * run->context.h_f_boil + (1 - v->to_lines) * v->trial.h_f;
        if (steam > 0)
            heat -= steam * (heatup_vessel_enthalpy(run, i) - h_f);
    }
    return heat * dt;
}

void heatup_books_add(heatup_run *run, double dt)
{
    fv_heat_split *split = &run->result->split;
    split->drained += drained(run, dt);
    for (size_t i = 0; i < run->context.plant->line_count; i++) {
        split->line_losses += run->state.network->lines[i].heat_loss * dt;
        run->result->line_loss[i] += run->state.network->lines[i].heat_loss * dt;
        run->result->line_condensate[i] += run->state.network->lines[i].condensate * dt;
    }
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        warm_lines(run, i, dt);
        if (heatup_followed(&run->state.vessels[i]))
            add_vessel(run, i, dt);
    }
}

void heatup_books_mark(heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (run->state.vessels[i].state == STEAM_OPEN && !run->state.vessels[i].inactive) {
            run->result->split_steaming = run->result->split;
            run->result->steam_end = run->state.t;
            return;
        }
}

void heatup_books_close(heatup_run *run)
{
    fv_heat_split *s = &run->result->split;
    fv_heat_audit *audit = &run->result->audit;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const heatup_chamber *chamber = &run->state.vessels[i].chamber;
        s->wall_losses += heatup_chamber_of_walls(chamber, heatup_wall_heat_lost);
        run->result->vessels[i].heat_linings = heatup_chamber_of_walls(chamber, heatup_wall_heat_by_vapour);
        run->result->vessels[i].lining_water = heatup_chamber_of_walls(chamber, heatup_wall_heat_water);
    }
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        audit->supplied += run->result->boilers[i].fuel;
    audit->accounted = s->load + s->walls + s->shell + s->lines_warmed + s->line_losses + s->vented + s->air_warmed +
                       s->gas_stored + s->drained + s->boiler_startup + s->boiler_losses + s->boiler_stored + s->flue;
    audit->relative = audit->supplied > 0 ? fabs(audit->supplied - audit->accounted) / audit->supplied : 0;
}
