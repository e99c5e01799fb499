/* SPDX-License-Identifier: MIT */
/* The earliest that a core can still come: with its chamber at the boiling point from this moment on. Nothing is said
 * of loads that melt, nor of beds, which take their time from the steam. */
#include "heatup/give_up.h"
#include "heatup/actions.h"

#include <math.h>

enum { EVERY = 4 };                /* steps */
static const double LATER = 1.002; /* of a time allowed: what is so near to it is followed */
static const double HOTTER = 0.5;  /* K over the boiling point, or over what it has: a chamber stands under pressure */

/* Whether the core can be there `within` s from now. */
static bool can_come(const heatup_run *run, size_t i, double within)
{
    const heatup_vessel *v = &run->state.vessels[i];
    if (within <= 0)
        return false;
    if (!v->chamber.body || !heatup_body_is_linear(v->chamber.body) || v->chamber.in_open)
        return true;
    const double t = fmax(run->context.t_boil, v->chamber.t) + HOTTER;
    const double core = heatup_body_core_after(v->chamber.body, within, t, 0, true);
    return core >= run->context.plant->vessels[i]->target.v;
}

bool heatup_gives_up(heatup_run *run)
{
    const fv_heat_options *o = run->context.options;
    size_t late = 0;
    bool beyond = false;
    if ((o->late_ends == 0 && !o->all_by_until) || run->result->audit.steps % EVERY != 0)
        return false;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        const double opened = run->result->vessels[i].opened;
        if (v->reached || v->inactive || heatup_actions_stay_shut(run, i))
            continue;
        const double allowed = LATER * run->context.plant->vessels[i]->within.v;
        late += !isnan(opened) && !can_come(run, i, opened + allowed - run->state.t);
        beyond = beyond || (o->all_by_until && !can_come(run, i, LATER * o->until - run->state.t));
    }
    run->result->given_up = beyond || (o->late_ends > 0 && late >= o->late_ends);
    return run->result->given_up;
}
