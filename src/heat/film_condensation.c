/* SPDX-License-Identifier: MIT */
/* Steam condensing as a film on a colder wall.
 *
 *     h = C [ g rho (rho - rho_v) k^3 h'_fg / (mu dT L) ]^(1/4),   h'_fg = h_fg (1 + 0.68 cp dT / h_fg)
 *     C = 0.943, L = height: vertical plate;   C = 0.729, L = diameter: horizontal tube
 *
 * Given:    height or diameter, m; saturation and wall temperature, K.
 * Returned: h, W/m2/K, mean over the surface, on t_sat - t_wall.
 * Range:    pure still steam, smooth laminar film, 0 to 150 degC. Film Reynolds number 4 h L dT/(mu h'_fg) above 1800,
 *           where the film turns turbulent: FV_DOUBTFUL (h is then too small). Wall as warm as the steam, or sizes
 *           that are not finite and positive: FV_FAIL.
 * Accuracy: waves make a real vertical film up to 20 % better. Air is the large error: 1 % of it can halve h, and drops
 *           instead of a film make h several times larger; a wall in a vessel is therefore near t_sat in any case.
 * Source:   W. Nusselt, Z. VDI 60 (1916) 541-546 and 569-575; 0.68: W. M. Rohsenow, Trans. ASME 78 (1956) 1645-1648;
 *           from memory.
 */
#include "farvessel/constants.h"
#include "heat/convection.h"
#include "heat/water_film.h"

#include <math.h>

static fv_status film(double constant, double length, double perimeter_lengths, double t_sat, double t_wall, double *h)
{
    heat_film_water w;
    double dt = t_sat - t_wall;
    if (!(length > 0) || !isfinite(length) || !(dt > 0))
        return FV_FAIL;
    fv_status status = heat_water_film(t_sat, 0.5 * (t_sat + t_wall), &w);
    if (status == FV_FAIL)
        return FV_FAIL;
    double h_fg = w.h_fg + 0.68 * w.cp * dt;
    double group = FV_GRAVITY * w.rho * (w.rho - w.rho_v) * w.k * w.k * w.k * h_fg / (w.mu * dt * length);
    *h = constant * sqrt(sqrt(group));
    double re = 4.0 * *h * perimeter_lengths * length * dt / (w.mu * h_fg);
    return re <= 1800.0 ? status : FV_DOUBTFUL;
}

fv_status fv_heat_film_vertical(double height, double t_sat, double t_wall, double *h)
{
    return film(0.943, height, 1.0, t_sat, t_wall, h);
}

fv_status fv_heat_film_horizontal(double diameter, double t_sat, double t_wall, double *h)
{
    // Each side of the tube carries half of the perimeter.
    return film(0.729, diameter, 0.5 * FV_PI, t_sat, t_wall, h);
}
