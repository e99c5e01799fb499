/* SPDX-License-Identifier: MIT */
/* The plant that a verb works on: the file, and the --set changes on top. */
#include "cli/cli.h"

#include "farvessel/plantfile.h"

fv_plant *cli_load(const cli_request *request, fv_faults *faults)
{
    const fv_loc nowhere = {NULL, 0};
    if (!request->operand) {
        fv_error(faults, FV_ERR_INPUT, nowhere, "farvessel: which plant? As in `farvessel %s plant.xml`",
                 request->verb->name);
        return NULL;
    }
    fv_plant *plant = fv_plantfile_read(request->operand, NULL, faults);
    if (plant && request->setting_count > 0 &&
        fv_plantfile_set(plant, request->settings, request->setting_count, faults) == FV_FAIL) {
        fv_plant_free(plant);
        return NULL;
    }
    return plant;
}
