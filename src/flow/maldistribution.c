/* SPDX-License-Identifier: MIT */
/* How uneven a uniform perforated pipe is, to first order.
 *
 * Purpose   the published rule behind 'hole drop at least ten times the change along the pipe': it gives 5 %.
 * Given     |pressure change from end to end of the pipe| / hole drop, either sign (friction lowers, regain raises).
 * Returned  share by which the worst hole's flow falls short of the best: 1 - sqrt(1 - ratio).
 * Valid     small ratios: the drop is taken as unchanged at the better end. FV_DOUBTFUL above 0.5 (common practice,
 *           no source). FV_FAIL above 1, where the worst hole would draw in, and for what is not a number.
 * Accuracy  exact algebra of that model; 0.1 gives 5.132 %, 0.01 gives 0.501 %. A coil is computed hole by hole; this
 *           is the rule it is held against.
 * Source    V. E. Senecal, Ind. Eng. Chem. 49 (1957) 993, as in Perry's Chemical Engineers' Handbook, 7th ed.,
 *           section 6, 'Perforated-pipe distributors' (from memory). */
#include "farvessel/flow.h"

#include <math.h>

fv_status fv_flow_maldistribution(double pressure_change_over_hole_drop, double *share)
{
    if (!share)
        return FV_FAIL;
    double ratio = fabs(pressure_change_over_hole_drop);
    if (!(ratio <= 1.0))
        return FV_FAIL;
    // 1 - sqrt(1 - r) without the cancellation at small r
    *share = ratio / (1.0 + sqrt(1.0 - ratio));
    return ratio > 0.5 ? FV_DOUBTFUL : FV_OK;
}
