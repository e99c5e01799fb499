/* SPDX-License-Identifier: MIT */
/* Heat loss of a round line, per metre.
 *
 * Given:    the line (bore, wall, lagging, their conductivities, inside film), the steam's temperature, the outside.
 * Returned: q, W/m (negative where the air is the warmer one); dq/dt_inside, W/m/K; the temperature of the outermost
 *           surface, K.
 * How:      resistances in series, on the outside area A = pi D of one metre:
 *               1/(h_inside pi bore)  [none without h_inside]  +  ln(Dw/bore)/(2 pi k_wall)  +  ln(D/Dw)/(2 pi
 * k_lagging) against natural + forced + radiation from the surface, whose temperature is iterated (surface.c). Range:
 * any sizes above 0; that of the correlations outside: FV_DOUBTFUL. Layers of no thickness need no conductivity.
 * Negative sizes, a layer without conductivity, emissivity outside 0..1: FV_FAIL. Accuracy: surface temperature to
 * 1e-12, derivative to 1e-8; the outside coefficients 10 to 20 %, which a lagged line feels little of. Wet lagging and
 * the fins that flanges and barbs make are not in it. Source:   handbook series resistances (J. B. Fourier); outside as
 * its files say.
 */
#include "farvessel/constants.h"
#include "heat/surface.h"

#include <math.h>

/* ln of the radii of a layer over 2 pi k; false when the layer makes no sense. */
static bool layer_resistance(double inner, double thickness, double k, double *r)
{
    *r = 0;
    if (!(thickness >= 0) || !isfinite(thickness))
        return false;
    if (thickness == 0)
        return true;
    *r = log1p(2.0 * thickness / inner) / (2.0 * FV_PI * k);
    return k > 0;
}

fv_status fv_heat_pipe_loss(const fv_heat_pipe *pipe, double t_inside, const fv_heat_outside *outside, double *q,
                            double *dq_dt, double *t_surface)
{
    if (!pipe || !outside || !q || !dq_dt || !t_surface)
        return FV_FAIL;
    double wall, lagging;
    if (!(pipe->bore > 0) || !isfinite(pipe->bore) || !(t_inside > 0))
        return FV_FAIL;
    double tube = pipe->bore + 2.0 * pipe->wall;
    if (!layer_resistance(pipe->bore, pipe->wall, pipe->k_wall, &wall) ||
        !layer_resistance(tube, pipe->lagging, pipe->k_lagging, &lagging))
        return FV_FAIL;
    double diameter = tube + 2.0 * pipe->lagging;
    double inside = pipe->h_inside > 0 ? 1.0 / (pipe->h_inside * FV_PI * pipe->bore) : 0.0;
    double area = FV_PI * diameter;
    heat_surface surface = {true, diameter, outside};
    heat_balanced at;
    fv_status status = heat_surface_balance(&surface, (inside + wall + lagging) * area, t_inside - outside->t_air, &at);
    if (status == FV_FAIL)
        return FV_FAIL;
    *q = at.flux * area;
    *dq_dt = at.dflux_drop * area;
    *t_surface = outside->t_air + at.excess;
    return status;
}
