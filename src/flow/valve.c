/* SPDX-License-Identifier: MIT */
/* Valves: loss coefficient from a flow coefficient, and how the coefficient falls as the valve is shut.
 *
 * Kv is the flow in m3/h of water (1000 kg/m3) at 1 bar across the valve. With dp = K rho u^2/2 and u = Q/A:
 *     K = 2 (1e5 Pa) A^2 / (1000 kg/m3 (Kv/3600 m3/s)^2) = 200 (3600 A / Kv)^2        (0.0016 d^4/Kv^2 with d in mm)
 * Cv is the same in US gal/min at 1 psi, so Kv = Cv (3.785411784e-3 60) sqrt(1e5 / 6894.757293) = 0.86498 Cv.
 *
 * Given     Kv > 0 and the bore (m) whose velocity head K shall refer to; or an opening 0 (shut) to 1 (open).
 * Returned  K; or the share of the full flow coefficient, exactly 0 at 0 and 1 at 1, rising all the way.
 * Outside   FV_FAIL: Kv or bore not positive and finite, opening outside 0..1.
 * Accuracy  K is a definition. The curves are shapes: a real valve may stray from its named curve by 10 % of full
 *           flow and more.
 * Source    Kv, Cv: IEC 60534-1 (from memory; its Kv = 0.865 Cv agrees).
 *           linear         the opening itself (by definition)
 *           equal percent  R^(y - 1) with rangeability R = 50, IEC 60534-2-4 (from memory); below y = 1/ln R the
 *                          tangent through the origin, the same there in value and slope, so that the valve shuts
 *           quick          sqrt(y), common practice, no source
 *           ball           y^2.5, common practice, no source (a full-bore ball valve: 18 % at half its turn) */
#include "farvessel/constants.h"
#include "farvessel/flow.h"

#include <math.h>

#define RANGEABILITY 50.0
#define PSI 6894.757293 /* Pa */

fv_status fv_flow_k_from_kv(double kv, double bore, double *k)
{
    if (!k)
        return FV_FAIL;
    if (!(kv > 0.0) || !isfinite(kv) || !(bore > 0.0) || !isfinite(bore))
        return FV_FAIL;
    double area = 0.25 * FV_PI * bore * bore;
    double ratio = 3600.0 * area / kv;
    *k = 200.0 * ratio * ratio;
    return FV_OK;
}

double fv_flow_kv_from_cv(double cv)
{
    return cv * (3.785411784e-3 * 60.0) * sqrt(1e5 / PSI);
}

static double equal_percent(double y)
{
    double slope = log(RANGEABILITY);
    double join = 1.0 / slope;
    if (y >= join)
        return pow(RANGEABILITY, y - 1.0);
    return y * slope * pow(RANGEABILITY, join - 1.0);
}

fv_status fv_flow_valve_opening(fv_valve_curve curve, double opening, double *share)
{
    if (!share)
        return FV_FAIL;
    if (!(opening >= 0.0) || !(opening <= 1.0))
        return FV_FAIL;
    switch (curve) {
    case FV_VALVE_LINEAR:
        *share = opening;
        return FV_OK;
    case FV_VALVE_EQUAL_PERCENT:
        *share = equal_percent(opening);
        return FV_OK;
    case FV_VALVE_QUICK:
        *share = sqrt(opening);
        return FV_OK;
    case FV_VALVE_BALL:
        *share = opening * opening * sqrt(opening);
        return FV_OK;
    }
    return FV_FAIL;
}
