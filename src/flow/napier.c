/* SPDX-License-Identifier: MIT */
/* Critical mass flux of dry saturated steam by Napier's rule: W = p A / 70.
 *
 * Purpose   a check of the isentropic hole from outside; the solver does not use it.
 * Given     upstream absolute pressure, Pa.
 * Returned  mass flux, kg/s/m2, at discharge coefficient 1. In the rule's own units: W lb/s, p lbf/in2 absolute, A
 *           in2.
 * Valid     pressure beyond the hole below 58 % of the pressure before it; dry saturated steam. Not checked here.
 * Accuracy  against isentropic equilibrium expansion by IAPWS-IF97: -5.6 % at 1 bar, -2.4 % at 3 bar, -0.5 % at 6
 *           bar.
 * Source    R. D. Napier (1866), as eq. 49 in Babcock & Wilcox Co., Steam, Its Generation and Use, 35th ed. (1919). */
#include "farvessel/constants.h"
#include "farvessel/flow.h"

#define POUND 0.45359237 /* kg */
#define PSI 6894.757293  /* Pa */

double fv_flow_napier(double p)
{
    return p / PSI / 70.0 * POUND / (FV_INCH * FV_INCH);
}
