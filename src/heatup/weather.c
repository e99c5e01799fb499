/* SPDX-License-Identifier: MIT */
/* Air and wind now: linear between the rows of the site's weather, level before the first and after the last. */
#include "heatup/weather.h"

void heatup_weather_at(const fv_plant *plant, double t, double *air, double *wind)
{
    const fv_site *site = &plant->site;
    *air = site->air.v;
    *wind = site->wind.v;
    for (size_t i = 0; i < site->weather_count; i++) {
        const fv_weather *row = site->weather[i];
        if (t >= row->at.v || i == 0) {
            *air = row->air.v;
            *wind = row->wind.v;
        }
        if (t < row->at.v && i > 0) {
            const fv_weather *before = site->weather[i - 1];
            const double share = (t - before->at.v) / (row->at.v - before->at.v);
            *air = before->air.v + share * (row->air.v - before->air.v);
            *wind = before->wind.v + share * (row->wind.v - before->wind.v);
            return;
        }
    }
}
