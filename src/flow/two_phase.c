/* SPDX-License-Identifier: MIT */
/* Friction of steam that carries water: multiplier on the gradient that the vapour would have alone in the pipe.
 *
 * Purpose   condensate that runs on with the steam loads the line.
 * Given     quality x (vapour mass flow / total mass flow), 0 < x <= 1; densities (kg/m3) and viscosities (Pa s) of
 *           vapour, g, and water, f.
 * Returned  phi_g^2 = 1 + C X + X^2, X = ((1 - x)/x)^0.9 (rho_g/rho_f)^0.5 (mu_f/mu_g)^0.1, C = 20; exactly 1 at x =
 *           1. The gradient it multiplies is that of the vapour's own mass flow, x G.
 * Valid     both phases turbulent (C = 20); in a small line the water film is often laminar, for which Chisholm has C
 *           = 12 (vapour turbulent): this value is then on the safe side. FV_DOUBTFUL below quality 0.1, where a hose
 *           slugs rather than flows (common practice, no source). FV_FAIL outside 0 < x <= 1, for densities or
 *           viscosities not positive.
 * Accuracy  some 30 to 50 % against measurements, as such multipliers go (common practice, no source). The slope by x
 *           is infinite at x = 1, but only as (1 - x)^-0.1.
 * Source    R. W. Lockhart & R. C. Martinelli, Chem. Eng. Prog. 45 (1949) 39; C: D. Chisholm, Int. J. Heat Mass
 *           Transfer 10 (1967) 1767; X for turbulent flow in both with f ~ Re^-0.2; from memory. */
#include "farvessel/flow.h"

#include <math.h>

#define CHISHOLM_C 20.0

fv_status fv_flow_two_phase(double quality, double rho_g, double rho_f, double mu_g, double mu_f, double *phi2)
{
    if (!phi2)
        return FV_FAIL;
    if (!(quality > 0.0) || !(quality <= 1.0) || !(rho_g > 0.0) || !(rho_f > 0.0) || !(mu_g > 0.0) || !(mu_f > 0.0) ||
        !isfinite(rho_g) || !isfinite(rho_f) || !isfinite(mu_g) || !isfinite(mu_f))
        return FV_FAIL;
    double x = pow((1.0 - quality) / quality, 0.9) * sqrt(rho_g / rho_f) * pow(mu_f / mu_g, 0.1);
    *phi2 = 1.0 + x * (CHISHOLM_C + x);
    return quality < 0.1 ? FV_DOUBTFUL : FV_OK;
}
