/* SPDX-License-Identifier: MIT */
/* Thermal conductivity of water and steam, without the critical enhancement.
 *
 * Given: t (K), rho (kg/m3; 0 is the dilute gas). Returned: lambda (W/m/K).
 * Valid: 273.15 to 1173.15 K, densities to 1250 kg/m3. FV_DOUBTFUL outside, and from 25 to 720 kg/m3, where the
 * term left out can exceed 1 %. On the saturation line it is below 0.06 % up to 6 bar and 0.33 % up to 20 bar
 * (computed with the full formulation of the python package iapws 1.5).
 * Accuracy: reproduces Table 4 of the release (enhancement 0) to every printed digit; the release states about
 * 2 % against measurement for steam and 1 to 2 % for the liquid.
 * Source: IAPWS R15-11 (2011), eqs 15 to 17, Tables 1 and 2. */
#include "farvessel/props.h"

#include <math.h>

enum { ROWS = 5, COLUMNS = 6 };

static const double t_star = 647.096, rho_star = 322.0, lambda_star = 1e-3;

static const double dilute[] = {2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3, 4.096266e-4};

/* Row i: power of 1/T - 1; column j: power of rho - 1. */
static const double dense[ROWS][COLUMNS] = {
    {1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258},
    {2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245},
    {2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816},
    {-1.21051378, 1.60812989, -0.621178141, 0.0716373224, 0, 0},
    {-2.7203370, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842},
};

fv_status fv_iapws_conductivity(double t, double rho, double *lambda)
{
    if (!isfinite(t) || !isfinite(rho) || t <= 0 || rho < 0)
        return FV_FAIL;
    double tr = t / t_star, z = 1 / tr, dr = rho / rho_star;
    double q = (((dilute[4] * z + dilute[3]) * z + dilute[2]) * z + dilute[1]) * z + dilute[0];
    double x = z - 1, y = dr - 1, s = 0;
    for (int i = ROWS - 1; i >= 0; i--) {
        double row = 0;
        for (int j = COLUMNS - 1; j >= 0; j--)
            row = row * y + dense[i][j];
        s = s * x + row;
    }
    double found = lambda_star * sqrt(tr) / q * exp(dr * s);
    if (!isfinite(found) || found <= 0)
        return FV_FAIL;
    *lambda = found;
    if (t < 273.15 || t > 1173.15 || rho > 1250)
        return FV_DOUBTFUL;
    return rho > 25 && rho < 720 ? FV_DOUBTFUL : FV_OK;
}
