/* SPDX-License-Identifier: MIT */
/* Where a target lies above what vented steam can reach: the longer hold at a reachable temperature that does as much
 * to what is to be killed. t2 = t1 10^((T1 - T2) / z), the thermal death time of Bigelow (1921; Ball, 1923); what
 * coming up and cooling add is not counted. T2 is a little below the boiling point, at a half degree, so that traces of
 * air and the weather do not undo it. Nothing is offered where that would take longer than HOLD_MOST, or where the law
 * would be stretched over more than two z. */
#include "farvessel/constants.h"
#include "farvessel/model.h"

#include <math.h>

static const double BELOW_BOILING = 2.0;       /* K */
static const double HOLD_MOST = 48.0 * 3600.0; /* s */

fv_equal_hold fv_equal_hold_of(double target, double hold, double z, double boiling_point)
{
    const fv_equal_hold none = {(double)NAN, (double)NAN};
    const double reachable = floor(2.0 * (boiling_point - BELOW_BOILING - FV_CELSIUS)) / 2.0 + FV_CELSIUS;
    const double lower = fmin(reachable, target);
    const double longer = hold * pow(10.0, (target - lower) / z);
    if (!(longer <= HOLD_MOST) || lower < target - 2.0 * z)
        return none;
    return (fv_equal_hold){lower, longer};
}
