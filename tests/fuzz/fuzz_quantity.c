/* SPDX-License-Identifier: MIT */
/* Any text, any dimension: a number that writes back to itself, or one line of reason. */
#include "farvessel/units.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static void must_come_back(const fv_units *units, fv_dim dim, double si)
{
    fv_text text = {0};
    double again;
    char *why = NULL;
    if (!fv_quantity_write(dim, si, &text))
        abort();
    if (fv_quantity_parse(units, dim, text.text, &again, &why) == FV_FAIL || again != si)
        abort();
    fv_text_free(&text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static fv_units *units; /* made once: the fuzzer calls this from one thread */
    if (!units)
        units = fv_units_new(NULL);
    if (size < 1)
        return 0;
    const fv_dim dim = (fv_dim)(data[0] % (unsigned)FV_DIM_TEXT);
    char *text = malloc(size);
    memcpy(text, data + 1, size - 1);
    text[size - 1] = 0;
    double si;
    char *why = NULL;
    if (fv_quantity_parse(units, dim, text, &si, &why) != FV_FAIL) {
        if (!isfinite(si) || why)
            abort();
        must_come_back(units, dim, si);
    } else if (!why || strchr(why, '\n')) {
        abort();
    }
    free(why);
    free(text);
    return 0;
}
