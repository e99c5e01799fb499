/* SPDX-License-Identifier: MIT */
/* A load in the open: what it gives up warms the air around it, or leaves with water that evaporates. What its vessel
 * stored stays there. */
#include "heatup/chamber.h"
#include "heatup/load.h"

#include <math.h>

fv_status heatup_chamber_unload(heatup_chamber *chamber, double t_air, double site_pressure, double t_site, bool apart)
{
    heatup_body_spec spec;
    if (!chamber->body || !heatup_body_is_linear(chamber->body) || chamber->in_open)
        return FV_OK;
    if (heatup_load_in_open(chamber->vessel, t_air, site_pressure, t_site, apart, &spec, &chamber->gives_water) ==
        FV_FAIL)
        return FV_FAIL;
    heatup_body *open = heatup_body_unloaded(chamber->body, &spec);
    if (!open)
        return FV_FAIL;
    chamber->pieces *= heatup_body_mass(chamber->body) / heatup_body_mass(open);
    heatup_body_free(chamber->body);
    chamber->body = open;
    chamber->in_open = true;
    chamber->t = chamber->t_end = t_air;
    chamber->pressure = 0;
    chamber->prepared = NAN;
    return FV_OK;
}

void heatup_chamber_in_open(const heatup_chamber *chamber, const heatup_chamber_step *step, heatup_chamber_trial *found)
{
    const double heat = chamber->load_a + chamber->load_b * step->t_air;
    fv_sat_at_t_point at;
    fv_sat_at_t(chamber->sat, step->t_air, &at);
    const double water = fmax(0, -heat) * chamber->gives_water, latent = water * (at.h_g - at.h_f);
    *found = (heatup_chamber_trial){.t = step->t_air,
                                    .t_end = step->t_air,
                                    .air = chamber->air,
                                    .vented = water / step->dt,
                                    .condensate = -water,
                                    .heat_load = heat,
                                    .heat_vented = latent,
                                    .heat_air = -heat - latent,
                                    .humidity = chamber->humidity,
                                    .gas_by_t = chamber->gas_by_t,
                                    .through = NAN};
}
