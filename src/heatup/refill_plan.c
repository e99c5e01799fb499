/* SPDX-License-Identifier: MIT */
/* When to pour how much into a boiler that is fed by hand and ran dry.
 *
 * It loses usable/(dry - steam up) = r kg/s. Poured in each time: what is gone when a tenth of the usable water is left
 * (common practice, no source), in whole litres, so that it is never above where it began. Before the next m kg are
 * gone they are warmed by heat that makes no steam meanwhile: m/r (1 + (h_f - h_feed)/(h_g - h_f)), heat balance at the
 * boiling point. Where the plant takes less steam later, the times are early, and the glass shows it. */
#include "heatup/refill_plan.h"

#include <math.h>

static const double LEFT = 0.1; /* of the usable water when it is refilled */
static const double LITRE = 1;  /* kg */

static void plan(const heatup_run *run, const fv_boiler *boiler, fv_boiler_history *h)
{
    const double usable = 1000 * fv_or(boiler->usable, fv_or(boiler->water, 0)), rate = usable / (h->dry - h->steam_up);
    const double gone = (1 - LEFT) * usable, mass = gone < LITRE ? gone : floor(gone / LITRE) * LITRE;
    fv_sat_point hot;
    fv_sat_at_t_point cold;
    fv_sat_at(run->context.sat, run->context.site_pressure, &hot);
    fv_sat_at_t(run->context.sat, boiler->feed.v, &cold);
    h->refill_mass = mass;
    h->refill_first = h->steam_up + gone / rate;
    h->refill_every = mass / rate * (1 + (hot.h_f - cold.h_f) / (hot.h_g - hot.h_f));
}

void heatup_refill_plan(heatup_run *run)
{
    for (size_t k = 0; k < run->context.plant->boiler_count; k++) {
        const fv_boiler *boiler = run->context.plant->boilers[k];
        fv_boiler_history *h = &run->result->boilers[k];
        h->refill_mass = h->refill_first = h->refill_every = NAN;
        if (fv_word(boiler->feeding) == FV_FEED_BY_HAND && boiler->refill_count == 0 && h->dry > h->steam_up)
            plan(run, boiler, h);
    }
}
