/* SPDX-License-Identifier: MIT */
/* Dry air at the film temperature, for the outside correlations of this folder.
 *
 * Given:    t  film temperature, K (mean of surface and air);  p  pressure, Pa.
 * Returned: density (ideal gas), viscosity, conductivity, specific heat, the diffusivities, the Prandtl number and
 *           the thermal expansion 1/t.
 * Range:    -40 to 400 degC, 0.3 to 1.2 bar. Outside: FV_DOUBTFUL, still computed. Not finite or not positive: FV_FAIL.
 * Accuracy: against a table of air at 1 atm in a textbook (Incropera & DeWitt, Table A.4, from memory), 250 to 500 K:
 *           viscosity and conductivity 0.7 %, specific heat 0.4 %, Prandtl number 1 %. The correlations that use it
 *           are no better than 5 %. Moisture of the air is left out: at 30 degC saturated it moves h by under 2 %.
 * Source:   viscosity and conductivity: U.S. Standard Atmosphere 1976, eqs 51 and 53 (the same in ISO 2533:1975);
 *           specific heat: the fourth-degree fit for air, cp/R, of Moran & Shapiro, Fundamentals of Engineering
 *           Thermodynamics, table of ideal-gas specific heats; all constants from memory.
 * The formulas stand here rather than being taken from the steam and air properties of this floor because folders of
 * one floor do not call each other.
 */
#include "farvessel/constants.h"
#include "heat/convection.h"

#include <math.h>

fv_status heat_air_film(double t, double p, heat_air *air)
{
    if (!isfinite(t) || !isfinite(p) || t <= 0 || p <= 0)
        return FV_FAIL;
    double root = t * sqrt(t);
    air->rho = p / (FV_GAS_CONSTANT_AIR * t);
    air->mu = 1.458e-6 * root / (t + 110.4);
    air->k = 2.64638e-3 * root / (t + 245.4 * exp(-12.0 * 2.302585092994046 / t));
    double t2 = t * t;
    air->cp = FV_GAS_CONSTANT_AIR * (3.653 - 1.337e-3 * t + 3.294e-6 * t2 - 1.913e-9 * t2 * t + 0.2763e-12 * t2 * t2);
    air->nu = air->mu / air->rho;
    air->alpha = air->k / (air->rho * air->cp);
    air->pr = air->nu / air->alpha;
    air->beta = 1.0 / t;
    bool inside = t >= 233.15 && t <= 673.15 && p >= 0.3e5 && p <= 1.2e5;
    return inside ? FV_OK : FV_DOUBTFUL;
}
