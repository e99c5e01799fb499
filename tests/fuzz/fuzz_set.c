/* SPDX-License-Identifier: MIT */
/* Any text as a --set on a known plant: taken, or refused with a reason. */
#include "farvessel/plantfile.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static fv_plant *plant; /* read once; each try works on a copy */
    if (!plant)
        plant = fv_plantfile_read("networks/mixed.xml", NULL, NULL);
    if (!plant)
        abort();
    char *text = malloc(size + 1);
    memcpy(text, data, size);
    text[size] = 0;
    const char *settings[] = {text};
    fv_faults *faults = fv_faults_new();
    fv_plant *copy = fv_plant_copy(plant);
    if (fv_plantfile_set(copy, settings, 1, faults) == FV_FAIL && fv_faults_errors(faults) == 0)
        abort();
    fv_plant_free(copy);
    fv_faults_free(faults);
    free(text);
    return 0;
}
