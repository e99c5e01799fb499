/* SPDX-License-Identifier: MIT */
#include "study/bounds.h"

#include "farvessel/props.h"
#include "study/ideal.h"

#include <math.h>
#include <stdlib.h>

static const double WATER = 4180, STEEL = 460; /* J/kg/K, the least over the range */
static const double WATER_DENSITY = 958;       /* kg/m3 at 100 degC, the least */
static const double LATENT = 2.257e6;          /* J/kg at 100 degC (IAPWS-IF97) */
static const double BOILING = 373.15;          /* K; a plant at altitude boils sooner, see below */
static const double BELOW = 10;                /* K: boiling at altitude */
static const double SLACK = 0.99; /* a chamber stands a little above the air's pressure, so its steam is hotter */

/* The earliest that this boiler can boil, all its heat in its water and steel. */
static double earliest_steam(const fv_plant *plant, const fv_boiler *b, double t_boil)
{
    const double capacity = WATER * WATER_DENSITY * fv_or(b->water, 0) + STEEL * fv_or(b->steel, 0);
    const double from = fv_or(b->start_temperature, fv_or(plant->site.air, t_boil));
    return fv_or(b->start, 0) + fmax(0, capacity * (t_boil - from) / b->output.v);
}

static double find_conduction(const fv_plant *plant, const study_outcome *now, double steam)
{
    double latest = 0;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        if (now->verdicts[i] == FV_SHUT_OFF)
            continue;
        if (isnan(now->ample[i]))
            return NAN;
        latest = fmax(latest, steam + SLACK * now->ample[i]);
    }
    return latest;
}

/* W that condensing steam can bring: condensate may leave as cold as the load was, colder than the feed. */
static double heat_rate(const fv_plant *plant, double coldest)
{
    double rate = 0;
    for (size_t i = 0; i < plant->boiler_count; i++) {
        const fv_boiler *b = plant->boilers[i];
        const double feed = fv_or(b->feed, coldest);
        rate +=
            b->output.v * (LATENT + WATER * (BOILING - coldest)) / (LATENT + WATER * (BOILING - fmax(feed, coldest)));
    }
    return rate;
}

/* J that boilers' water may give back when their pressure falls from its highest. */
static double given_back(const fv_plant *plant)
{
    double heat = 0;
    for (size_t i = 0; i < plant->boiler_count; i++) {
        const fv_boiler *b = plant->boilers[i];
        const double hottest = fv_sat_t(fv_sat_line(), 101325 + fv_or(b->holds, 0), NULL);
        heat += (1.02 * WATER * 1000 * fv_or(b->water, 0) + 1.1 * STEEL * fv_or(b->steel, 0)) *
                fmax(0, hottest - BOILING + BELOW);
    }
    return heat;
}

static double find_energy(const fv_plant *plant, const study_outcome *now, double steam)
{
    fv_faults *faults = fv_faults_new();
    double heat = 0, coldest = BOILING;
    bool good = faults != NULL;
    for (size_t i = 0; i < plant->vessel_count && good; i++) {
        const fv_vessel *v = plant->vessels[i];
        fv_vessel_need need;
        if (now->verdicts[i] == FV_SHUT_OFF)
            continue;
        good = fv_vessel_need_of(plant, v, fv_sat_line(), &need, faults) != FV_FAIL;
        heat += good ? SLACK * need.comes : 0;
        coldest = fmin(coldest, fv_or(v->load.start_temperature, fv_or(plant->site.air, BOILING)));
    }
    fv_faults_free(faults);
    return good ? steam + fmax(0, heat - given_back(plant)) / heat_rate(plant, coldest) : NAN;
}

/* One run of the plant with every split allowed. */
static fv_status find_sharing(const study_adviser *a, const study_outcome *now, const fv_progress *progress,
                              double *sharing)
{
    const size_t n = a->plant->vessel_count;
    const study_causes lines = study_cause_bit(FV_WHY_HEADER) | study_cause_bit(FV_WHY_HOSE) |
                               study_cause_bit(FV_WHY_FITTINGS) | study_cause_bit(FV_WHY_SAG) |
                               study_cause_bit(FV_WHY_WATER) | study_cause_bit(FV_WHY_HOLES) |
                               study_cause_bit(FV_WHY_COIL);
    double *need = calloc(n + 1, sizeof *need);
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = need && faults ? fv_plant_copy(a->plant) : NULL;
    fv_status status = plant ? FV_OK : FV_FAIL;
    *sharing = NAN;
    for (size_t i = 0; i < n && plant; i++) {
        fv_vessel_need own;
        if (fv_vessel_need_of(plant, plant->vessels[i], fv_sat_line(), &own, faults) != FV_FAIL)
            need[i] = own.load + own.shell;
    }
    const study_basis basis = {.plant = a->plant, .ways = &a->ways, .need = need, .ample = now->ample};
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    const bool good = plant && study_idealize(&basis, lines, -1, plant, NULL, faults) != FV_FAIL;
    fv_heat_result *result = good ? fv_heat_run(plant, &options, progress, faults) : NULL;
    if (result && result->stopped)
        status = FV_FAIL;
    double last = 0;
    for (size_t i = 0; result && i < n; i++)
        if (result->vessels[i].verdict != FV_SHUT_OFF)
            last = fmax(last, isnan(result->vessels[i].core) ? INFINITY : result->vessels[i].core);
    *sharing = result && isfinite(last) ? last : NAN;
    fv_heat_free(result);
    fv_plant_free(plant);
    fv_faults_free(faults);
    free(need);
    return status;
}

fv_status study_bounds_find(const study_adviser *a, const study_outcome *now, const fv_progress *progress,
                            study_bounds *bounds)
{
    double steam = INFINITY;
    *bounds = (study_bounds){NAN, NAN, NAN};
    if (!now->ran)
        return FV_OK;
    for (size_t i = 0; i < a->plant->boiler_count; i++)
        steam = fmin(steam, earliest_steam(a->plant, a->plant->boilers[i], BOILING - BELOW));
    bounds->conduction = find_conduction(a->plant, now, steam);
    bounds->energy = find_energy(a->plant, now, steam);
    return find_sharing(a, now, progress, &bounds->sharing);
}
