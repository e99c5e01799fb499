/* SPDX-License-Identifier: MIT */
#include "embed.h"

static const fv_loc HERE = {"example", 0}; /* what messages call the place where a part was made */

static bool add_drum(fv_plant *plant, const char *id, const char *joint, const char *hose_id, double hose_length)
{
    fv_line *hose = fv_plant_add_line(plant, FV_LINE_HOSE, hose_id, HERE);
    fv_vessel *drum = fv_plant_add_vessel(plant, id, false, HERE);
    fv_opening *drain = drum ? fv_vessel_add_opening(plant, drum, FV_OPENING_DRAIN, HERE) : NULL;
    if (!hose || !drum || !drain)
        return false;
    hose->from = "boiler-outlet";
    hose->to = drum->at = joint;
    hose->length = fv_given(hose_length);
    hose->bore = fv_given(0.019);
    drum->volume = fv_given(0.2);
    drum->coil.bore = fv_given(0.021);
    drum->coil.length = fv_given(0.6);
    drum->coil.holes = fv_given(12);
    drum->coil.drill = fv_given(0.003);
    drum->load.a = drum->load.b = fv_given(0.10);
    drum->load.c = fv_given(0.20);
    drum->load.count = fv_given(40);
    drum->load.packing = fv_given(FV_PACKING_LOOSE);
    drum->target = fv_given(273.15 + 95);
    drain->diameter = fv_given(0.025);
    return true;
}

static fv_plant *make_plant(double far_length, fv_faults *faults)
{
    fv_plant *plant = fv_plant_new("example");
    fv_boiler *boiler = plant ? fv_plant_add_boiler(plant, "boiler", HERE) : NULL;
    if (!boiler || !add_drum(plant, "near", "n", "hose-near", 2) ||
        !add_drum(plant, "far", "f", "hose-far", far_length)) {
        fv_error(faults, FV_ERR_SYSTEM, HERE, "out of memory");
        fv_plant_free(plant);
        return NULL;
    }
    boiler->at = "boiler-outlet";
    boiler->output = fv_given(9000);
    boiler->holds = fv_given(20000);
    boiler->relief = fv_given(50000);
    if (fv_plant_link(plant, faults) != FV_FAIL)
        return plant;
    fv_plant_free(plant);
    return NULL;
}

bool example_run(double far_length, example_answer *answer, fv_faults *faults)
{
    fv_plant *plant = make_plant(far_length, faults);
    if (!plant)
        return false;
    fv_flow_options moment;
    fv_flow_defaults(&moment);
    moment.turndown = false;
    fv_flow_answer *flow = fv_flow_answer_new(plant, &moment, NULL, faults);

    fv_heat_options time;
    fv_heat_defaults(&time);
    fv_heat_result *heat = flow ? fv_heat_run(plant, &time, NULL, faults) : NULL;
    for (int i = 0; heat && i < 2; i++) {
        answer->steam[i] = flow->state->vessels[i].steam;
        answer->core[i] = heat->vessels[i].core;
    }
    const bool good = heat != NULL;
    fv_heat_free(heat);
    fv_flow_answer_free(flow);
    fv_plant_free(plant);
    return good;
}
