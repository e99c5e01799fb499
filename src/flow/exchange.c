/* SPDX-License-Identifier: MIT */
/* What one large opening lets through both ways at once, heavy air in and light gas out, with no flow in all.
 *
 * Purpose   volume each way, m3/s, over the root of the density difference to the mean density of both.
 * Given     in a level plate: diameter D and thickness L; in an upright one: area A and height H, Cd 0.6.
 * Returned  F sqrt(g D^5),  F = 0.055 (1 + 400 l^3)^(1/6) / [1 + 0.00527 (1 + 400 l^3)^0.5 (l^6 + 117 l^2)^0.75]^(1/3),
 *           l = L/D; and Cd/3 A sqrt(g H).
 * Valid     l from 0.01 to 20, FV_DOUBTFUL outside; sizes above 0, else FV_FAIL. Brine over water and air of unlike
 *           temperature; steam and air are taken to do alike.
 * Accuracy  10 to 20 %, from memory.
 * Source    M. Epstein, J. Heat Transfer 110 (1988) 885; W. G. Brown & K. R. Solvason, Int. J. Heat Mass Transfer 5
 *           (1962) 859; both from memory. */
#include "farvessel/constants.h"
#include "farvessel/flow.h"

#include <math.h>

static const double THIN = 0.01, LONG = 20, CD_UPRIGHT = 0.6;

fv_status fv_flow_exchange_level(double diameter, double thickness, double *per_root)
{
    if (!per_root || !(diameter > 0) || !(thickness > 0) || !isfinite(diameter))
        return FV_FAIL;
    const double l = thickness / diameter, grown = 1 + 400 * l * l * l;
    const double braked = 1 + 0.00527 * sqrt(grown) * pow(pow(l, 6) + 117 * l * l, 0.75);
    *per_root = 0.055 * pow(grown, 1.0 / 6) / cbrt(braked) * sqrt(FV_GRAVITY * pow(diameter, 5));
    return l < THIN || l > LONG ? FV_DOUBTFUL : FV_OK;
}

fv_status fv_flow_exchange_upright(double area, double height, double *per_root)
{
    if (!per_root || !(area > 0) || !(height > 0) || !isfinite(area * height))
        return FV_FAIL;
    *per_root = CD_UPRIGHT / 3 * area * sqrt(FV_GRAVITY * height);
    return FV_OK;
}
