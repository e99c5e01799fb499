/* SPDX-License-Identifier: MIT */
/* The answer of `check`: what was understood of a plant, summed up, with the heat that each vessel needs. */
#include "farvessel/steady.h"

#include <math.h>
#include <stdlib.h>

static double hole_area(const fv_coil *coil)
{
    static const double quarter_pi = 0.78539816339744830962;
    double squares = fv_or(coil->holes, 0) * coil->drill.v * coil->drill.v;
    if (isnan(squares) || coil->hole_count > 0)
        squares = 0;
    for (size_t i = 0; i < coil->hole_count; i++)
        squares += coil->hole[i]->count.v * coil->hole[i]->drill.v * coil->hole[i]->drill.v;
    return quarter_pi * squares * (1 - coil->clogged.v);
}

static bool sum_up(fv_check_answer *a, const fv_sat *sat, fv_faults *faults)
{
    const fv_plant *plant = a->plant;
    bool good = true;
    a->site_pressure = fv_site_pressure(&plant->site);
    a->boiling_point = fv_sat_t(sat, a->site_pressure, NULL);
    for (size_t i = 0; i < plant->boiler_count; i++)
        a->boiler_output += plant->boilers[i]->output.v;
    for (size_t i = 0; i < plant->line_count; i++)
        a->line_length += plant->lines[i]->length.v;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        good = fv_vessel_need_of(plant, plant->vessels[i], sat, &a->vessels[i], faults) != FV_FAIL && good;
        a->hole_area += hole_area(&plant->vessels[i]->coil);
        a->load_mass += a->vessels[i].load_mass;
        a->need += a->vessels[i].need;
    }
    fv_steady_check(plant, sat, faults);
    return good && fv_faults_errors(faults) == 0;
}

fv_check_answer *fv_check_answer_new(const fv_plant *plant, fv_faults *faults)
{
    if (!plant) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_check_answer *a = calloc(1, sizeof *a);
    if (a)
        *a = (fv_check_answer){.plant = plant, .vessels = calloc(plant->vessel_count + 1, sizeof *a->vessels)};
    bool ready = a && a->vessels;
    if (!ready)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    bool good = ready && sum_up(a, fv_sat_line(), faults);
    if (good)
        return a;
    fv_check_answer_free(a);
    return NULL;
}

void fv_check_answer_free(fv_check_answer *answer)
{
    if (answer)
        free(answer->vessels);
    free(answer);
}
