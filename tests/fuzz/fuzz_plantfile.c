/* SPDX-License-Identifier: MIT */
/* Any bytes: a plant that writes, reads back and writes the same again, or faults that say why. What
 * reading accepts the XSD allows. */
#include "../plantfile/against_xsd.h"
#include "mutate_xml.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Loaded once: it takes longer than the rest. */
static xmlSchemaPtr schema;

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory((const char *)data, size, "fuzz.xml", NULL, faults);
    if (!plant && fv_faults_errors(faults) == 0)
        abort();
    if (!schema)
        schema = xsd_load();
    if (plant && !xsd_allows(schema, (const char *)data, size))
        abort();
    if (plant) {
        fv_text text = {0};
        fv_faults *second = fv_faults_new();
        if (!fv_plantfile_write(plant, &text))
            abort();
        fv_plant *again = fv_plantfile_read_memory(text.text, text.length, "again.xml", NULL, second);
        fv_text twice = {0};
        if (!again || !fv_plantfile_write(again, &twice) || strcmp(text.text, twice.text) != 0)
            abort();
        fv_plant_free(again);
        fv_text_free(&twice);
        fv_faults_free(second);
        fv_text_free(&text);
        fv_plant_free(plant);
    }
    fv_faults_free(faults);
    return 0;
}
