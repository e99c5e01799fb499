/* SPDX-License-Identifier: MIT */
/* Gauge pressure, Pa, at which a mass flux G, kg/m2/s, of saturated vapour runs as fast as sound along the saturation
 * line: rho(p) = G sqrt(d rho/dp), the choking condition of physics of compressible flow with density a function of
 * pressure alone. By Newton's method, rho taken as a power of p, which it nearly is. */
#include "steady/equations.h"

enum { STEPS = 30 };
static const double SETTLED = 1e-12; /* of the absolute pressure */

double steady_sonic_pressure(const fv_network *net, double flux, double p, double *by_flux)
{
    const double site = net->site_pressure;
    double step = 1;
    for (int i = 0; i < STEPS && fabs(step) > SETTLED * (site + p); i++) {
        double slope;
        const double rho = fv_sat_rho_g(net->sat, site + p, &slope), exponent = slope * (site + p) / rho;
        *by_flux = sqrt(slope) * (site + p) / (0.5 * (exponent + 1) * rho);
        step = (flux * sqrt(slope) - rho) * (site + p) / (0.5 * (exponent + 1) * rho);
        p += step;
    }
    return p;
}
