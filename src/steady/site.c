/* SPDX-License-Identifier: MIT */
/* Pressure of the air at the site, Pa absolute: the barometer's, or that of the standard atmosphere at its altitude. */
#include "farvessel/steady.h"

#include <math.h>

double fv_site_pressure(const fv_site *site)
{
    if (!site)
        return (double)NAN;
    if (fv_is_set(site->pressure))
        return site->pressure.v;
    double p;
    fv_atmosphere_pressure(site->altitude.v, &p);
    return p;
}

double fv_site_boiling_point(const fv_site *site)
{
    if (!site)
        return (double)NAN;
    return fv_sat_t(fv_sat_line(), fv_site_pressure(site), NULL);
}
