/* SPDX-License-Identifier: MIT */
/* Steady heat loss of a flat wall of layers, per square metre, and its outside coefficient.
 *
 * Given:    layers from inside out (thickness, conductivity; rho and c are not needed here), the height for natural
 *           convection and the length for wind, the inside film (h_inside <= 0: inner face at t_inside), the outside.
 * Returned: q, W/m2 (negative where the air is the warmer one); dq/dt_inside, W/m2/K; outer surface temperature, K.
 * Range:    any count of layers, also none (a bare shell). Correlations outside their range: FV_DOUBTFUL. Negative
 *           thickness, a layer without conductivity, emissivity outside 0..1: FV_FAIL.
 * Accuracy: surface temperature to 1e-12, derivative to 1e-8; the outside coefficients 10 to 20 %.
 * Source:   series resistances; outside as its files say. Lids and floors are treated as walls: a horizontal face
 *           differs by up to 30 % in still air (see natural_horizontal.c).
 */
#include "heat/surface.h"

#include <math.h>

fv_status fv_heat_wall_loss(const fv_heat_layer *layers, size_t count, double height, double h_inside, double t_inside,
                            const fv_heat_outside *outside, double *q, double *dq_dt, double *t_surface)
{
    if ((!layers && count > 0) || !outside || !q || !dq_dt || !t_surface)
        return FV_FAIL;
    if (!(t_inside > 0))
        return FV_FAIL;
    double resistance = h_inside > 0 ? 1.0 / h_inside : 0.0;
    for (size_t i = 0; i < count; i++) {
        if (!(layers[i].thickness >= 0) || (layers[i].thickness > 0 && !(layers[i].k > 0)))
            return FV_FAIL;
        if (layers[i].thickness > 0)
            resistance += layers[i].thickness / layers[i].k;
    }
    heat_surface surface = {false, height, outside};
    heat_balanced at;
    fv_status status = heat_surface_balance(&surface, resistance, t_inside - outside->t_air, &at);
    if (status == FV_FAIL)
        return FV_FAIL;
    *q = at.flux;
    *dq_dt = at.dflux_drop;
    *t_surface = outside->t_air + at.excess;
    return status;
}

fv_status fv_heat_outside_wall(double height, double t_s, const fv_heat_outside *outside, double *h)
{
    if (!outside)
        return FV_FAIL;
    heat_surface surface = {false, height, outside};
    if (heat_surface_check(&surface) == FV_FAIL || !(t_s > 0) || !isfinite(t_s))
        return FV_FAIL;
    return heat_surface_h(&surface, t_s - outside->t_air, h);
}
