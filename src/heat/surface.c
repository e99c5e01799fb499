/* SPDX-License-Identifier: MIT */
/* Outside coefficient and surface temperature.
 *
 * The unknown is the excess x of the surface over the air, not its temperature, so that a small excess keeps its
 * digits:
 *
 *     G(x) = R h(x) x + x - D = 0,   D = drop from the inside to the air, R = resistance per outside area
 *
 * h(x) x rises with x, so G does, and the root lies between 0 and D (of either sign): a secant kept inside a shrinking
 * bracket, to 2e-13 of x. (Brent's method, num/root.h, makes a heat run of many lines 5 % longer.) The derivative
 * follows from differentiating G:  d(flux)/dD = f' / (1 + R f'), f(x) = h(x) x, with f' from a central difference of
 * relative width 1e-4, good to about 1e-9 because f is close to a power of x.
 *
 * Wind below which natural convection rules is no fault: a correlation's doubt counts only while its part is at
 * least half of the other one (less is under 2 % of the sum).
 */
#include "heat/surface.h"
#include "heat/convection.h"

#include <math.h>

fv_status heat_surface_check(const heat_surface *surface)
{
    const fv_heat_outside *o = surface->outside;
    if (!(surface->size > 0) || !isfinite(surface->size) || !(o->t_air > 0) || !isfinite(o->t_air))
        return FV_FAIL;
    if (o->h_fixed > 0)
        return isfinite(o->h_fixed) ? FV_OK : FV_FAIL;
    bool good = o->p_air > 0 && isfinite(o->p_air) && o->wind >= 0 && isfinite(o->wind) && o->emissivity >= 0 &&
                o->emissivity <= 1;
    return good ? FV_OK : FV_FAIL;
}

fv_status heat_surface_h(const heat_surface *surface, double excess, double *h)
{
    const fv_heat_outside *o = surface->outside;
    if (o->h_fixed > 0) {
        *h = o->h_fixed;
        return FV_OK;
    }
    heat_air air;
    double natural = 0, forced = 0;
    fv_status status = heat_air_film(o->t_air + 0.5 * excess, o->p_air, &air);
    if (status == FV_FAIL)
        return FV_FAIL;
    fv_status natural_status = surface->round ? heat_natural_cylinder(&air, surface->size, excess, &natural)
                                              : heat_natural_vertical(&air, surface->size, excess, &natural);
    fv_status forced_status = FV_OK;
    if (o->wind > 0)
        forced_status = surface->round ? heat_forced_cylinder(&air, surface->size, o->wind, &forced)
                                       : heat_forced_plate(&air, surface->size, o->wind, &forced);
    if (natural_status == FV_FAIL || forced_status == FV_FAIL)
        return FV_FAIL;
    if (natural > 0.5 * forced)
        status = heat_worse(status, natural_status);
    if (forced > 0.5 * natural)
        status = heat_worse(status, forced_status);
    *h = fv_heat_mixed(natural, forced) + fv_heat_radiation(o->emissivity, o->t_air + excess, o->t_air);
    return status;
}

/* Finds the excess; *h is the coefficient there. */
static fv_status find_excess(const heat_surface *surface, double resistance, double drop, double *excess, double *h)
{
    double low = 0, high = drop; // G has the sign of -drop at low and of drop at high
    double x0 = drop, g0, x1, g1;
    fv_status status = heat_surface_h(surface, x0, h);
    if (status == FV_FAIL)
        return FV_FAIL;
    *excess = drop;
    if (resistance == 0 || drop == 0)
        return status;
    g0 = resistance * *h * x0;
    x1 = drop / (1.0 + resistance * *h);
    for (int i = 0; i < 100; i++) {
        status = heat_surface_h(surface, x1, h);
        if (status == FV_FAIL)
            return FV_FAIL;
        *excess = x1;
        g1 = (resistance * *h + 1.0) * x1 - drop;
        if (g1 == 0)
            return status;
        if (g1 * drop > 0)
            high = x1;
        else
            low = x1;
        double next = g1 == g0 ? x1 : x1 - g1 * (x1 - x0) / (g1 - g0);
        if (fabs(next - x1) <= 2e-13 * fabs(x1))
            return status;
        if (!((next - low) * (next - high) < 0))
            next = 0.5 * (low + high);
        x0 = x1;
        g0 = g1;
        x1 = next;
    }
    return FV_FAIL;
}

fv_status heat_surface_balance(const heat_surface *surface, double resistance, double drop, heat_balanced *out)
{
    if (heat_surface_check(surface) == FV_FAIL || !(resistance >= 0) || !isfinite(resistance) || !isfinite(drop))
        return FV_FAIL;
    double h;
    fv_status status = find_excess(surface, resistance, drop, &out->excess, &h);
    if (status == FV_FAIL)
        return FV_FAIL;
    double x = out->excess, slope = h;
    out->flux = h * x;
    if (!(surface->outside->h_fixed > 0) && x != 0) {
        double step = 1e-4 * x, h_less, h_more;
        if (heat_surface_h(surface, x - step, &h_less) == FV_FAIL ||
            heat_surface_h(surface, x + step, &h_more) == FV_FAIL)
            return FV_FAIL;
        slope = (h_more * (x + step) - h_less * (x - step)) / (2.0 * step);
    }
    out->dflux_drop = slope / (1.0 + resistance * slope);
    return status;
}
