/* SPDX-License-Identifier: MIT */
/* Dry air as an ideal gas, with transport properties.
 *
 * Given: p (Pa), t (K). Returned: rho (kg/m3), cp (J/kg/K), mu (Pa s), lambda (W/m/K), nu and alpha (m2/s), Pr,
 * and beta = 1/t (1/K).
 * Valid: 233.15 to 673.15 K, 1 kPa to 1 MPa. Outside: FV_DOUBTFUL. FV_FAIL for arguments that are not finite and
 * positive or so far off that a property is not.
 * Accuracy: against Incropera & DeWitt's Table A.4 (1 atm, 250 to 650 K; from memory): rho 0.1 %, cp 0.25 %,
 * mu 0.6 %, lambda 0.8 %, Pr 1.3 %.
 * Source: gas constant, viscosity (Sutherland) and conductivity: ISO 2533:1975 (the same in the U.S. Standard
 * Atmosphere 1976); specific heat: Irvine & Liley, Steam and Gas Tables with Computer Equations (1984),
 * polynomial for air 250 to 1050 K, which runs on smoothly to 233 K. All from memory. */
#include "farvessel/props.h"

#include <math.h>

static const double gas_constant = 287.05287; /* J/kg/K */

double fv_air_density(double p, double t)
{
    return p / (gas_constant * t);
}

static double specific_heat(double t)
{
    double kj = (((0.1077024e-12 * t - 0.4970786e-9) * t + 0.7816818e-6) * t - 0.2848870e-3) * t + 0.103409e1;
    return 1e3 * kj;
}

fv_status fv_air_at(double p, double t, fv_air_state *out)
{
    if (!isfinite(p) || !isfinite(t) || p <= 0 || t <= 0)
        return FV_FAIL;
    double t15 = t * sqrt(t);
    fv_air_state a = {
        .rho = fv_air_density(p, t),
        .cp = specific_heat(t),
        .mu = 1.458e-6 * t15 / (t + 110.4),
        .lambda = 2.648151e-3 * t15 / (t + 245.4 * pow(10, -12 / t)),
        .beta = 1 / t,
    };
    a.nu = a.mu / a.rho;
    a.alpha = a.lambda / (a.rho * a.cp);
    a.pr = a.mu * a.cp / a.lambda;
    if (!isfinite(a.nu) || !isfinite(a.alpha) || !isfinite(a.pr) || !(a.rho > 0 && a.mu > 0 && a.lambda > 0))
        return FV_FAIL;
    *out = a;
    return t < 233.15 || t > 673.15 || p < 1e3 || p > 1e6 ? FV_DOUBTFUL : FV_OK;
}
