/* SPDX-License-Identifier: MIT */
/* Mutated networks through check and flow: a result that passes its own audit, or a reason. */
#include "farvessel/farvessel.h"
#include "mutate_xml.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

enum { HOLES_MOST = 2000 };
static const double LEAST_STEAM = 1e-15; /* kg/s */
static const double LEAST_HEAT = 1e-9;   /* W */

static size_t holes_of(const fv_plant *plant)
{
    double holes = 0;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_coil *coil = &plant->vessels[i]->coil;
        holes += coil->hole_count > 0 ? (double)coil->hole_count : fv_or(coil->holes, 0);
    }
    return holes > 1e6 ? 1000000 : (size_t)holes;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory((const char *)data, size, "fuzz.xml", NULL, faults);
    if (plant && holes_of(plant) < HOLES_MOST) {
        fv_flow_options options;
        fv_flow_defaults(&options);
        options.turndown = false;
        fv_flow_answer *answer = fv_flow_answer_new(plant, &options, NULL, faults);
        if (!answer && fv_faults_errors(faults) == 0)
            abort();
        if (answer) {
            /* Of nothing at all no share is small: a plant that makes next to no steam is held to absolute figures. */
            const fv_audit *audit = &answer->state->audit;
            if (!audit->converged || !(audit->mass_relative < 1e-9 || audit->mass_imbalance < LEAST_STEAM) ||
                !(audit->energy_relative < 1e-9 || audit->energy_imbalance < LEAST_HEAT))
                abort();
        }
        fv_flow_answer_free(answer);
    }
    fv_plant_free(plant);
    fv_faults_free(faults);
    return 0;
}
