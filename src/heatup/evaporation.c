/* SPDX-License-Identifier: MIT */
/* Vapour from a wet face into saturated gas, as a coefficient times the difference of temperatures:
 *
 *     q = h/(rho c_p) M_w/R (p_sat(T)/T - p_sat(T_gas)/T_gas) h_fg        (Lewis number 1)
 *
 * rho of air at the mean temperature, h_fg the mean of both. Source: Lewis relation, Incropera & DeWitt, from memory.
 */
#include "heatup/evaporation.h"
#include "farvessel/constants.h"
#include "farvessel/props.h"

static double vapour_density(double t, double *h_fg)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(fv_sat_line(), t, &at);
    *h_fg = at.h_g - at.h_f;
    return at.p / (FV_GAS_CONSTANT_WATER * t);
}

double heatup_evaporation(double h, double t, double t_gas, double pressure)
{
    double h_fg, other;
    const double rho_cp = pressure / (FV_GAS_CONSTANT_AIR * 0.5 * (t + t_gas)) * FV_CP_AIR;
    const double drop = vapour_density(t, &h_fg) - vapour_density(t_gas, &other);
    return h / rho_cp * drop * 0.5 * (h_fg + other) / (t - t_gas);
}
