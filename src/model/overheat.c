/* SPDX-License-Identifier: MIT */
/* What a load should not pass, by its medium in the order of its words, and why; and where films soften. All common
 * practice, no source. */
#include "farvessel/constants.h"
#include "farvessel/model.h"

#include <math.h>

#define MICROBES "straw loses the microbes that protect it"
#define SALTS "soil and peat give off salts, ammonium and manganese"

static const struct {
    double limit; /* degC; NaN: none */
    const char *effect;
} by_medium[] = {{NAN, NULL}, {80, MICROBES}, {NAN, NULL}, {82, SALTS}, {82, SALTS}};

double fv_vessel_limit(const fv_vessel *vessel)
{
    return vessel ? fv_or(vessel->at_most, by_medium[fv_word(vessel->load.medium)].limit + FV_CELSIUS) : (double)NAN;
}

const char *fv_limit_effect(const fv_load *load)
{
    return load ? by_medium[fv_word(load->medium)].effect : NULL;
}

double fv_bag_limit(const fv_load *load)
{
    static const double softens[] = {[FV_FILM_LDPE] = 80, [FV_FILM_HDPE] = 120, [FV_FILM_PP] = 135};
    return load && fv_is_set(load->bag) ? softens[fv_word(load->bag)] + FV_CELSIUS : (double)NAN;
}
