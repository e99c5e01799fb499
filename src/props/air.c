/* SPDX-License-Identifier: MIT */
/* Dry air as an ideal gas, with transport properties.
 *
 * Given: p (Pa), t (K). Returned: rho (kg/m3), cp (J/kg/K), mu (Pa s), lambda (W/m/K), nu and alpha (m2/s), Pr,
 * and beta = 1/t (1/K).
 * Valid: 233.15 to 673.15 K, 1 kPa to 1 MPa. Outside: FV_DOUBTFUL. FV_FAIL for arguments that are not finite and
 * positive or so far off that a property is not.
 * Accuracy: against the full equations of state and transport of the python package iapws at 1 atm (233 to 673 K,
 * live in the tests): rho 0.14 %, cp 0.21 %, mu 0.11 %, lambda 0.20 %; the transport equations themselves are good
 * to 1 % (mu) and 2 % (lambda).
 * Source: gas constant: ISO 2533:1975. Specific heat: Irvine & Liley, Steam and Gas Tables with Computer Equations
 * (1984), polynomial for air 250 to 1050 K, which runs on smoothly to 233 K (from memory). Viscosity and
 * conductivity: Lemmon & Jacobsen, Int. J. Thermophysics 25 (2004) 21-69, eqs 2 and 5, the dilute gas. */
#include "farvessel/constants.h"
#include "farvessel/props.h"

#include <math.h>

double fv_air_density(double p, double t)
{
    return p / (FV_GAS_CONSTANT_AIR * t);
}

static double specific_heat(double t)
{
    double kj = (((0.1077024e-12 * t - 0.4970786e-9) * t + 0.7816818e-6) * t - 0.2848870e-3) * t + 0.103409e1;
    return 1e3 * kj;
}

/* uPa s; collision integral over the reduced temperature t / 103.3 K. */
static double dilute_viscosity(double t)
{
    const double molar_mass = 28.9586, sigma = 0.360; /* g/mol, nm */
    double x = log(t / 103.3);
    double log_omega = 0.431 + x * (-0.4623 + x * (0.08406 + x * (0.005341 + x * -0.00331)));
    return 0.0266958 * sqrt(molar_mass * t) / (sigma * sigma * exp(log_omega));
}

/* mW/m/K, from the dilute viscosity in uPa s. */
static double dilute_conductivity(double t, double mu)
{
    double tau = 132.6312 / t;
    return 1.308 * mu + 1.405 * pow(tau, -1.1) - 1.036 * pow(tau, -0.3);
}

fv_status fv_air_at(double p, double t, fv_air_state *out)
{
    if (!isfinite(p) || !isfinite(t) || p <= 0 || t <= 0)
        return FV_FAIL;
    double mu = dilute_viscosity(t);
    fv_air_state a = {
        .rho = fv_air_density(p, t),
        .cp = specific_heat(t),
        .mu = 1e-6 * mu,
        .lambda = 1e-3 * dilute_conductivity(t, mu),
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
