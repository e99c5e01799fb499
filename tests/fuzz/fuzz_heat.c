/* SPDX-License-Identifier: MIT */
/* Mutated networks through a day of heating: books that close and temperatures between what there was and what steam
 * can do, or a reason. */
#include "farvessel/farvessel.h"
#include "mutate_xml.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

enum { VESSELS_MOST = 8, HOLES_PER_COIL = 60, SAMPLE = 600, DAY = 86400, ABOVE_BOILING = 25 };

static const double LEAST = 1e-6; /* kg */

static bool is_small(const fv_plant *plant)
{
    if (plant->vessel_count > VESSELS_MOST || plant->line_count > 4 * VESSELS_MOST)
        return false;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_coil *coil = &plant->vessels[i]->coil;
        if ((coil->hole_count > 0 ? (double)coil->hole_count : fv_or(coil->holes, 0)) > HOLES_PER_COIL)
            return false;
    }
    return true;
}

/* kg; of nothing at all no share is small. */
static double steam_of(const fv_heat_result *r)
{
    double steam = 0;
    for (size_t i = 0; i < r->boiler_count; i++)
        steam += r->boilers[i].steam;
    return steam;
}

static void widen(double *low, double *high, fv_value value)
{
    if (fv_is_set(value) && isfinite(value.v)) {
        *low = fmin(*low, value.v);
        *high = fmax(*high, value.v);
    }
}

/* K to which dry air cools what is wet, at adiabatic saturation: cp (t - wet) = latent heat of the water it then holds.
 * Vapour pressure by Magnus (Sonntag 1990, from memory). */
static double wet_bulb(double t, double pressure)
{
    double low = 150, high = t;
    while (high - low > 0.01) {
        const double wet = 0.5 * (low + high), c = wet - 273.15;
        const double p = c > -200 ? 611.2 * exp(17.62 * c / (243.12 + c)) : 0;
        const double holds = p < pressure ? 0.622 * p / (pressure - p) : INFINITY;
        *(1006 * (t - wet) > holds * (2501e3 - 2361 * c) ? &low : &high) = wet;
    }
    return low;
}

/* Whatever heats or cools: air, weather, what the loads and the feed start with, steam somewhat above its pressure.
 * Water that clings when the steam is off evaporates into air drawn in, which is taken to be dry: a chamber may then be
 * colder than the air, down to its wet bulb. */
static void must_lie_between(const fv_heat_result *r)
{
    const fv_plant *plant = r->plant;
    double low = r->boiling_point, high = r->boiling_point + ABOVE_BOILING;
    widen(&low, &high, plant->site.air);
    for (size_t i = 0; i < plant->site.weather_count; i++)
        widen(&low, &high, plant->site.weather[i]->air);
    for (size_t i = 0; i < plant->vessel_count; i++)
        widen(&low, &high, plant->vessels[i]->load.start_temperature);
    low = wet_bulb(low, fv_site_pressure(&plant->site));
    for (size_t i = 0; i < r->series.count * plant->vessel_count; i++)
        if (!(r->series.core[i] > low - 1 && r->series.core[i] < high) ||
            !(r->series.chamber[i] > low - 1 && r->series.chamber[i] < high))
            abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory((const char *)data, size, "fuzz.xml", NULL, faults);
    if (plant && is_small(plant)) {
        fv_heat_options options;
        fv_heat_defaults(&options);
        options.until = DAY;
        options.every = SAMPLE;
        fv_heat_result *result = fv_heat_run(plant, &options, NULL, faults);
        if (!result && fv_faults_errors(faults) == 0)
            abort();
        if (result && !(result->audit.relative < 1e-6 && (result->audit.worst_mass < 1e-9 || steam_of(result) < LEAST)))
            abort();
        if (result)
            must_lie_between(result);
        fv_heat_free(result);
    }
    fv_plant_free(plant);
    fv_faults_free(faults);
    return 0;
}
