/* SPDX-License-Identifier: MIT */
/* A diaphragm: a thin plate with one round hole across a line, such as a washer at a hose's union.
 *
 * Purpose   loss coefficient K of total pressure on the velocity head of the LINE's bore.
 * Given     area_ratio m = hole area / line area, above 0 to 1.
 * Returned  (1 / (c m) - 1)^2 with the jet's contraction c = 0.618 - 0.022 m: the jet widens again as in a sudden
 *           enlargement (Borda-Carnot).
 * Valid     sharp edge, a plate thinner than about half the hole, turbulent flow, small Mach number. FV_FAIL for a
 *           ratio that is not above 0, or above 1.
 * Accuracy  Weisbach's table to 1.5 % for m up to 0.9 (tests/flow/test_fittings.c).
 * Source    J. Weisbach's table, in W. C. Unwin, Hydraulics, Encyclopaedia Britannica 11th ed. (1911); the straight
 *           line through its contractions is ours. */
#include "farvessel/flow.h"

fv_status fv_flow_diaphragm(double area_ratio, double *k)
{
    if (!k)
        return FV_FAIL;
    if (!(area_ratio > 0.0) || area_ratio > 1.0)
        return FV_FAIL;
    const double jet = (0.618 - 0.022 * area_ratio) * area_ratio;
    *k = (1.0 / jet - 1.0) * (1.0 / jet - 1.0);
    return FV_OK;
}
