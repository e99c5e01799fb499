/* SPDX-License-Identifier: MIT */
/* Why a core does not arrive: the boiling point, no steam, too little of it, or air. */
#include "heatup/arrival.h"
#include "heatup/supply.h"
#include "heatup/thermostat.h"

#include <math.h>

const char *fv_arrival_word(fv_arrival arrival)
{
    static const char *const words[] = {"arrived",  "boiling-point", "supply", "air",
                                        "no-steam", "dry",           "time",   "thermostat"};
    return words[arrival];
}

/* Steam that would keep the walls at the boiling point as they are now, W. */
static double losses_at_boiling(const heatup_run *run, const heatup_vessel *v)
{
    const double over = v->chamber.t - v->step.t_air, dt = v->step.dt;
    return over > 0 && dt > 0 ? v->trial.heat_walls / dt * (run->context.t_boil - v->step.t_air) / over : 0;
}

/* Air keeps a vessel down that has steam enough for its walls. */
fv_arrival heatup_why_not(const heatup_run *run, size_t i)
{
    const heatup_vessel *v = &run->state.vessels[i];
    const double steam = heatup_vessel_steam(run, i);
    for (size_t k = 0; k < run->context.plant->boiler_count; k++)
        if (run->state.boilers[k].dry)
            return FV_NOT_DRY;
    if (run->context.plant->vessels[i]->target.v >= heatup_chamber_boiling(&v->chamber, run->context.site_pressure))
        return FV_NOT_BOILING_POINT;
    if (isfinite(heatup_thermostats_keep(run, i)))
        return FV_NOT_THERMOSTAT;
    if (!(steam > 0))
        return FV_NOT_STEAM;
    const double brings = steam * (heatup_vessel_enthalpy(run, i) - run->context.h_f_boil);
    return brings > losses_at_boiling(run, v) ? FV_NOT_AIR : FV_NOT_SUPPLY;
}
