/* SPDX-License-Identifier: MIT */
#include "farvessel/constants.h"
#include "farvessel/model.h"

#include <math.h>

static const double WIDE = 0.1; /* m: narrower ones pass gas one way at a time; common practice, no source */

double fv_opening_area(const fv_opening *opening)
{
    if (!opening)
        return (double)NAN;
    return fv_or(opening->area, 0.25 * FV_PI * opening->diameter.v * opening->diameter.v);
}

bool fv_opening_exchanges(const fv_vessel *vessel, const fv_opening *opening)
{
    if (!vessel || !opening || !(fv_opening_area(opening) > 0.25 * FV_PI * WIDE * WIDE))
        return false;
    for (size_t j = 0; j < vessel->opening_count; j++) {
        const fv_opening *other = vessel->openings[j];
        if (fv_opening_area(other) > 0 && !(fv_or(other->seal, 0) > 0) && other->height.v != opening->height.v)
            return false; /* a draught from one to the other */
    }
    return !(fv_or(opening->seal, 0) > 0);
}
